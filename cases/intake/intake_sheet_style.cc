// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/intake/intake_sheet.h"

namespace overbend::cases
{
const char *const sheet_style = R"(
@page { margin: 6mm 9mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 192mm; padding: 4mm; background: #fff; color: #000;
  font: 7.8pt/1.15 "DejaVu Sans", Verdana, Arial, sans-serif; }
h1 { font-size: 14pt; margin: 0; }
h2 { font-size: 9.5pt; margin: 1mm 0 0.4mm; border-bottom: 0.5mm solid #000; break-after: avoid; }
h2 small { font-weight: normal; font-size: 7pt; }
p { margin: 0.5mm 0; }
.caution { border-left: 1.2mm solid #000; padding-left: 1.2mm; font-weight: bold; font-size: 7pt; }
.columns { columns: 3; column-gap: 4mm; }
.field { break-inside: avoid; display: flex; flex-wrap: wrap; align-items: center; gap: 0 1mm;
  min-height: 5.9mm; padding: 0.1mm 0; border-bottom: 0.15mm solid #888; }
.label { font-weight: bold; }
.box { flex: 1 1 14mm; height: 5.6mm; border: 0.25mm solid #000; min-width: 13mm;
  display: flex; justify-content: flex-end; align-items: flex-end; padding: 0 0.4mm; }
.box .usual { font-size: 6.5pt; line-height: 1; text-align: right; }
.columns.settings { columns: 4; column-gap: 3mm; font-size: 6.6pt; }
.settings .field { min-height: 3.8mm; padding: 0; }
.settings .box { height: 3.7mm; }
.settings .box .usual { font-size: 5.6pt; }
.tick { white-space: nowrap; }
.tick.usual { text-decoration: underline; }
.tick::before { content: ""; display: inline-block; width: 2.7mm; height: 2.7mm;
  border: 0.3mm solid #000; margin-right: 0.6mm; vertical-align: -0.3mm; }
.words { flex: 1 1 auto; }
.say { flex-basis: 100%; }
.must { border: 0.3mm solid #000; padding: 0 0.6mm; font-size: 6.8pt; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; margin: 0.6mm 0; }
caption { text-align: left; font-weight: bold; }
th, td { border: 0.25mm solid #000; height: 5.9mm; padding: 0 0.6mm; font-weight: normal; }
thead th { height: 3.8mm; }
tbody th { text-align: left; font-weight: bold; }
th:first-child { width: 14mm; }
.line { display: inline-block; width: 14mm; height: 5.4mm; border: 0.25mm solid #000;
  vertical-align: middle; }
.line.wide { width: 45mm; }
@media print { body { padding: 0; max-width: none; } .say { display: none; } }
@media screen { h2 { font-size: 14pt; } body { font-size: 11pt; max-width: 62em; } .columns, .columns.settings { columns: 22em; }
  .settings, h2 small, .caution, .must, .box .usual { font-size: 10pt; }
  .box, .settings .box, .line, td { height: 2em; } }
)";

const char *const sheet_style_hash = "Hh61xW6LSpqpoqrx7HdoswIwNLZaioq+fHFtkR3beE4=";
} // namespace overbend::cases
