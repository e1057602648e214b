// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Texts that the build embeds: the project's own styles and script, and the library of the
// interactive view with its licence.
namespace overbend::viz
{
extern const char *const card_style;
extern const char *const card_script;
extern const char *const report_style;
extern const char *const index_style;
extern const char *const sheet_style;
extern const char *const neck_colours_script;
extern const char *const neck_data_script;
extern const char *const neck_keys_script;
extern const char *const neck_view_script;
extern const char *const three_script;
extern const char *const orbit_controls_script;
} // namespace overbend::viz
