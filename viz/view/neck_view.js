// SPDX-License-Identifier: GPL-3.0-or-later
// The interactive view of the report: the neck's surface at a stage, bent as many times as the
// scale says, coloured by a field. Drawn by three.js; everything else on the page works without.
(function () {
  'use strict';
  var dataElement = document.getElementById('neck-data');
  if (!dataElement) return;
  var root = document.documentElement;
  var about = JSON.parse(document.getElementById('neck-about').textContent);
  var canvas = document.getElementById('neck-canvas');
  var said = document.getElementById('neck-said');
  var stageSwitch = document.getElementById('neck-stage');
  var fieldSwitch = document.getElementById('neck-field');
  var scale = document.getElementById('neck-scale');

  function failed(why) {
    document.getElementById('neck-without').textContent =
      'The view cannot be drawn here (' + why + '). All figures, tables and plots of this page are complete without it.';
  }

  var renderer;
  try {
    renderer = new THREE.WebGLRenderer({ canvas: canvas, antialias: true, preserveDrawingBuffer: true });
  } catch (error) {
    failed('no WebGL');
    return;
  }

  // ---- data ------------------------------------------------------------------------------------
  function bytesOf(text) {
    var raw = atob(text.trim());
    var bytes = new Uint8Array(raw.length);
    for (var i = 0; i < raw.length; ++i) bytes[i] = raw.charCodeAt(i);
    return bytes.buffer;
  }
  var buffer = bytesOf(dataElement.textContent);
  var at = 0;
  function take(Type, count) {
    var size = count * Type.BYTES_PER_ELEMENT;
    var values = new Type(buffer.slice(at, at + size));
    at += size;
    return values;
  }
  // The same order as view_data.cc writes.
  function readPart(part) {
    part.place = take(Float32Array, 3 * part.nodes);
    part.index = take(Uint32Array, 3 * part.triangles);
    part.moved = about.stages.map(function () { return take(Int16Array, 3 * part.nodes); });
    part.fields.forEach(function (field) {
      field.values = about.stages.map(function () { return take(Uint16Array, part.nodes); });
    });
    return part;
  }
  var wood = readPart(about.wood), glue = readPart(about.glue);

  // ---- colours ---------------------------------------------------------------------------------
  // Cividis: lightness grows evenly, so it holds in grey and for colour-blind eyes. Polynomial fit
  // of the published map [M].
  function cividis(t) {
    t = Math.max(0, Math.min(1, t));
    return [
      -4.54 - t * (35.34 - t * (2381.73 - t * (6402.7 - t * (7024.72 - t * 2710.57)))),
      32.49 + t * (170.73 + t * (52.82 - t * (131.46 - t * (176.58 - t * 67.37)))),
      81.24 + t * (442.36 - t * (2482.43 - t * (6167.24 - t * (6614.94 - t * 2475.67))))
    ].map(function (c) { return Math.max(0, Math.min(255, c)) / 255; });
  }
  var bar = document.getElementById('neck-bar');
  (function paintBar() {
    var pen = bar.getContext('2d');
    for (var i = 0; i < bar.width; ++i) {
      var c = cividis(i / (bar.width - 1));
      pen.fillStyle = 'rgb(' + c.map(function (v) { return Math.round(255 * v); }).join(',') + ')';
      pen.fillRect(i, 0, 1, bar.height);
    }
  })();

  // ---- scene -----------------------------------------------------------------------------------
  var scene = new THREE.Scene();
  scene.background = new THREE.Color(0xffffff);
  scene.add(new THREE.HemisphereLight(0xffffff, 0xd8d8d8, 0.95));
  var lamp = new THREE.DirectionalLight(0xffffff, 0.15);
  lamp.position.set(-200, -500, 900);
  scene.add(lamp);
  var camera = new THREE.PerspectiveCamera(28, 2, 1, 10000);
  camera.up.set(0, 0, 1);

  function meshOf(part) {
    var geometry = new THREE.BufferGeometry();
    geometry.setAttribute('position', new THREE.BufferAttribute(new Float32Array(part.place), 3));
    geometry.setAttribute('color', new THREE.BufferAttribute(new Float32Array(3 * part.nodes), 3));
    geometry.setIndex(new THREE.BufferAttribute(part.index, 1));
    var material = new THREE.MeshPhongMaterial({ // shaded by face: normals follow the bend
      shininess: 0, specular: 0x000000,
      vertexColors: THREE.VertexColors === undefined ? true : THREE.VertexColors,
      flatShading: true, side: THREE.DoubleSide
    });
    var mesh = new THREE.Mesh(geometry, material);
    mesh.frustumCulled = false;
    scene.add(mesh);
    return mesh;
  }
  var woodMesh = meshOf(wood), glueMesh = meshOf(glue);
  // The neck as built, for comparison: its edges only.
  var straight = new THREE.BufferGeometry();
  straight.setAttribute('position', new THREE.BufferAttribute(wood.place, 3));
  straight.setIndex(new THREE.BufferAttribute(wood.index, 1));
  scene.add(new THREE.LineSegments(new THREE.EdgesGeometry(straight, 50),
    new THREE.LineBasicMaterial({ color: 0xa0a0a0 })));

  var box = new THREE.Box3().setFromBufferAttribute(straight.getAttribute('position'));
  var middle = box.getCenter(new THREE.Vector3()), length = box.max.x - box.min.x;

  var controls = new THREE.OrbitControls(camera, canvas);
  controls.enableKeys = false;
  controls.enableZoom = false; // the wheel scrolls the page until the view has the focus
  canvas.addEventListener('focus', function () { controls.enableZoom = true; });
  canvas.addEventListener('blur', function () { controls.enableZoom = false; });
  controls.addEventListener('change', draw);

  function home() {
    controls.target.copy(middle);
    camera.position.set(middle.x - 0.1 * length, middle.y - 1.15 * length, middle.z + 0.5 * length);
    controls.update();
  }

  // ---- what is shown ---------------------------------------------------------------------------
  var fields = wood.fields.map(function (f) { return { field: f, part: wood }; })
    .concat(glue.fields.map(function (f) { return { field: f, part: glue }; }));
  fields.forEach(function (one, i) {
    fieldSwitch.add(new Option(one.field.name + ' [' + one.field.unit + ']', i));
  });
  about.stages.forEach(function (name, i) { stageSwitch.add(new Option(name, i)); });

  function bend(part, mesh, stage, times) {
    var position = mesh.geometry.getAttribute('position'), moved = part.moved[stage];
    for (var i = 0; i < 3 * part.nodes; ++i)
      position.array[i] = part.place[i] + times * part.step * moved[i];
    position.needsUpdate = true;
  }
  function paint(part, mesh, field, stage) {
    var colour = mesh.geometry.getAttribute('color');
    for (var i = 0; i < part.nodes; ++i) {
      var c = field ? cividis(field.values[stage][i] / 65535) : [0.8, 0.8, 0.8];
      for (var k = 0; k < 3; ++k) colour.array[3 * i + k] = c[k];
    }
    colour.needsUpdate = true;
  }
  function rounded(value) { return Number(value.toPrecision(3)).toString(); }
  function withUnits(value, field) {
    var other = field.other;
    return rounded(value) + ' ' + field.unit +
      (other ? ' (' + rounded(value * other.factor + other.offset) + ' ' + other.unit + ')' : '');
  }

  function update() {
    var stage = Number(stageSwitch.value), times = Number(scale.value), chosen = fields[Number(fieldSwitch.value)];
    var inGlue = chosen.part === glue;
    bend(wood, woodMesh, stage, times);
    bend(glue, glueMesh, stage, times);
    paint(wood, woodMesh, inGlue ? null : chosen.field, stage);
    paint(glue, glueMesh, inGlue ? chosen.field : null, stage);
    glueMesh.visible = inGlue;
    woodMesh.material.transparent = inGlue;
    woodMesh.material.opacity = inGlue ? 0.22 : 1;
    woodMesh.material.depthWrite = !inGlue;
    woodMesh.material.needsUpdate = true;
    document.getElementById('neck-low').textContent = withUnits(chosen.field.min, chosen.field);
    document.getElementById('neck-high').textContent = withUnits(chosen.field.max, chosen.field);
    document.getElementById('neck-times').textContent = 'bent ' + times + ' times';
    said.textContent = about.stages[stage] + ': the bend is drawn ' + times +
      ' times as large as it is; colours show ' + chosen.field.name + '; grey edges: the neck straight as built.';
    draw();
  }
  function draw() { renderer.render(scene, camera); }
  function fit() {
    var width = canvas.parentNode.clientWidth, height = Math.max(240, Math.round(width * 0.5));
    renderer.setPixelRatio(window.devicePixelRatio || 1);
    renderer.setSize(width, height);
    camera.aspect = width / height;
    camera.updateProjectionMatrix();
    draw();
  }

  // ---- keys ------------------------------------------------------------------------------------
  function turn(sideways, upwards, closer) {
    var arm = camera.position.clone().sub(controls.target);
    arm.applyAxisAngle(camera.up, sideways);
    var across = new THREE.Vector3().crossVectors(camera.up, arm).normalize();
    var lifted = arm.clone().applyAxisAngle(across, upwards);
    if (Math.abs(lifted.z) < 0.985 * lifted.length()) arm = lifted;
    camera.position.copy(controls.target).add(arm.multiplyScalar(closer));
    controls.update();
    draw();
  }
  canvas.addEventListener('keydown', function (event) {
    var step = 0.12;
    var moves = {
      ArrowLeft: [-step, 0, 1], ArrowRight: [step, 0, 1], ArrowUp: [0, -step, 1], ArrowDown: [0, step, 1],
      '+': [0, 0, 0.88], '=': [0, 0, 0.88], '-': [0, 0, 1.14]
    };
    if (event.key === '0') home();
    else if (moves[event.key]) turn.apply(null, moves[event.key]);
    else return;
    event.preventDefault();
  });
  document.getElementById('neck-home').addEventListener('click', home);
  [stageSwitch, fieldSwitch].forEach(function (one) { one.addEventListener('change', update); });
  scale.addEventListener('input', update);
  window.addEventListener('resize', fit);

  root.classList.add('gl'); // shows the canvas, which has no size before
  stageSwitch.value = String(Math.min(1, about.stages.length - 1));
  home();
  fit();
  update();
})();
