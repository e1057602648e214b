// SPDX-License-Identifier: GPL-3.0-or-later
// Colours and legend of the interactive view.
var neckColours = (function () {
  'use strict';
  // The same maps as in the pictures (viz/drawing/colour_map.cc), colours at even distances.
  var growing = [0x00204d, 0x00336f, 0x39486b, 0x575c6d, 0x707173, 0x8a8779, 0xa69d75, 0xc4b56c, 0xe4cf5b, 0xffea46];
  var signed = [0x0b3a78, 0x3a6fb0, 0x86add6, 0xe6e6e6, 0xdba26a, 0xb0661f, 0x6b3600];
  var over = [0.85, 0, 0.55]; // over the limit: on neither map
  var marks = { use: [50, 80] }; // caution and limit, %

  function between(map, share) {
    var place = (map.length - 1) * Math.max(0, Math.min(1, share));
    var below = Math.min(map.length - 2, Math.floor(place));
    return [16, 8, 0].map(function (shift) {
      var a = map[below] >> shift & 255, b = map[below + 1] >> shift & 255;
      return (a + (place - below) * (b - a)) / 255;
    });
  }
  function colour(field, value) {
    if (field.colours === 'use' && value > 100) return over;
    return between(field.colours === 'signed' ? signed : growing, (value - field.from) / (field.to - field.from));
  }
  function css(c) {
    return 'rgb(' + c.map(function (v) { return Math.round(255 * v); }).join(',') + ')';
  }
  function roundTicks(a, b, about) {
    var wanted = (b - a) / about, decade = Math.pow(10, Math.floor(Math.log(wanted) / Math.LN10));
    var step = [1, 2, 2.5, 5, 10].map(function (t) { return t * decade; })
      .filter(function (s) { return s >= wanted * (1 - 1e-9); })[0];
    var ticks = [];
    for (var k = Math.ceil(a / step - 1e-9); k * step <= b + 1e-9 * step; ++k)
      ticks.push(Number((k * step).toPrecision(6)));
    return ticks;
  }

  // The bar with round numbers under it, and under them those of the other unit of the trade.
  function drawLegend(canvas, field) {
    var width = canvas.parentNode.clientWidth, ratio = window.devicePixelRatio || 1, height = field.other ? 74 : 54;
    canvas.width = Math.round(width * ratio);
    canvas.height = Math.round(height * ratio);
    canvas.style.height = height + 'px';
    var pen = canvas.getContext('2d');
    pen.scale(ratio, ratio);
    var left = 64, right = width - (field.colours === 'use' ? 150 : 40), barHeight = 18;
    function x(value) { return left + (right - left) * (value - field.from) / (field.to - field.from); }
    for (var i = left; i < right; ++i) {
      pen.fillStyle = css(colour(field, field.from + (field.to - field.from) * (i - left) / (right - left)));
      pen.fillRect(i, 4, 1.5, barHeight);
    }
    pen.strokeRect(left, 4, right - left, barHeight);
    pen.fillStyle = '#111';
    pen.font = '14px sans-serif';
    (marks[field.colours] || []).forEach(function (mark) { pen.fillRect(x(mark) - 1, 2, 2, barHeight + 4); });
    function row(y, unit, factor, offset) {
      pen.textAlign = 'right';
      pen.fillText(unit, left - 22, y);
      pen.textAlign = 'center';
      roundTicks(field.from * factor + offset, field.to * factor + offset, 6).forEach(function (tick) {
        pen.fillText((field.colours === 'signed' && tick > 0 ? '+' : '') + String(tick).replace('-', '\u2212'),
          x((tick - offset) / factor), y);
      });
    }
    row(40, field.unit, 1, 0);
    if (field.other) row(60, field.other.unit, field.other.factor, field.other.offset);
    if (field.colours === 'use') {
      pen.fillStyle = css(over);
      pen.fillRect(right + 12, 4, 20, barHeight);
      pen.fillStyle = '#111';
      pen.textAlign = 'left';
      pen.fillText('over: breaks', right + 38, 18);
    }
  }
  return { colour: colour, drawLegend: drawLegend };
})();
