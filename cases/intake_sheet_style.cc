// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/intake_sheet.h"

namespace overbend::cases
{
const char *const sheet_style = R"(
@page { margin: 8mm 9mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 192mm; padding: 4mm; background: #fff; color: #000;
  font: 8pt/1.2 "DejaVu Sans", Verdana, Arial, sans-serif; }
h1 { font-size: 15pt; margin: 0; }
h2 { font-size: 9.5pt; margin: 1.6mm 0 0.8mm; border-bottom: 0.5mm solid #000; break-after: avoid; }
h2 small, .blank { font-weight: normal; font-size: 6.8pt; }
p { margin: 0.6mm 0; }
.caution { border-left: 1.2mm solid #000; padding-left: 1.2mm; font-weight: bold; font-size: 7pt; }
.columns { columns: 3; column-gap: 4mm; }
.field { break-inside: avoid; display: flex; flex-wrap: wrap; align-items: center; gap: 0 1mm;
  min-height: 7.4mm; border-bottom: 0.15mm solid #888; }
.settings .field { min-height: 5.6mm; }
.label { font-weight: bold; }
.box { flex: 1 1 17mm; height: 6.4mm; border: 0.25mm solid #000; min-width: 15mm; }
.settings .box { height: 4.8mm; }
.tick { white-space: nowrap; }
.tick::before { content: ""; display: inline-block; width: 2.9mm; height: 2.9mm;
  border: 0.3mm solid #000; margin-right: 0.6mm; vertical-align: -0.3mm; }
.words { flex-basis: 100%; }
.say { flex-basis: 100%; }
.must { border: 0.3mm solid #000; padding: 0 0.6mm; font-size: 6.8pt; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; margin: 0.8mm 0; }
caption { text-align: left; font-weight: bold; }
th, td { border: 0.25mm solid #000; height: 6.8mm; padding: 0 0.6mm; font-weight: normal; }
thead th { height: 4.2mm; }
tbody th { text-align: left; font-weight: bold; }
th:first-child { width: 14mm; }
.line { display: inline-block; width: 20mm; height: 5.6mm; border: 0.25mm solid #000;
  vertical-align: middle; }
@media print { body { padding: 0; max-width: none; } .say { display: none; } }
@media screen { body { font-size: 11pt; max-width: 62em; } .columns { columns: 22em; }
  h2 small, .blank, .caution, .must { font-size: 10pt; } .box, .line, td { height: 2em; } }
)";

const char *const sheet_style_hash = "JKFf36zeJ9Z3Hz8SrYeKuYLcgBE5cAku3tj3TZoCseE=";
} // namespace overbend::cases
