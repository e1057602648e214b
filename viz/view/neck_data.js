// SPDX-License-Identifier: GPL-3.0-or-later
// What the page carries for the interactive view, in the order in which view_data.cc writes it.
var neckData = (function () {
  'use strict';
  var element = document.getElementById('neck-data');
  if (!element) return null;
  var about = JSON.parse(document.getElementById('neck-about').textContent);
  var raw = atob(element.textContent.trim());
  var bytes = new Uint8Array(raw.length);
  for (var i = 0; i < raw.length; ++i) bytes[i] = raw.charCodeAt(i);
  var at = 0;
  function take(Type, count) {
    var size = count * Type.BYTES_PER_ELEMENT;
    var values = new Type(bytes.buffer.slice(at, at + size));
    at += size;
    return values;
  }
  function readPart(part) {
    part.place = take(Float32Array, 3 * part.nodes);
    part.index = take(Uint32Array, 3 * part.triangles);
    part.edge = take(Uint32Array, 2 * part.edges);
    part.moved = about.stages.map(function () { return take(Int16Array, 3 * part.nodes); });
    part.fields.forEach(function (field) {
      field.values = about.stages.map(function () { return take(Uint16Array, part.nodes); });
    });
    return part;
  }
  about.wood = readPart(about.wood);
  about.glue = readPart(about.glue);
  return about;
})();
