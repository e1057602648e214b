// SPDX-License-Identifier: GPL-3.0-or-later
// The interactive view of the report: the neck's surface at a stage as a straightedge meets it, bent
// as many times as the scale says, coloured by a field. Drawn by three.js; everything else on the
// page works without.
(function () {
  'use strict';
  var about = neckData;
  if (!about) return;
  function element(name) { return document.getElementById('neck-' + name); }
  var canvas = element('canvas'), stageSwitch = element('stage'), fieldSwitch = element('field'), scale = element('scale');
  var renderer;
  try {
    renderer = new THREE.WebGLRenderer({ canvas: canvas, antialias: true, preserveDrawingBuffer: true });
  } catch (error) {
    element('without').textContent =
      'The view cannot be drawn here (no WebGL). All figures, tables and plots of this page are complete without it.';
    return;
  }
  var wood = about.wood, glue = about.glue, marks = about.landmarks;

  // ---- scene -----------------------------------------------------------------------------------
  var scene = new THREE.Scene();
  scene.background = new THREE.Color(0xffffff);
  scene.add(new THREE.HemisphereLight(0xffffff, 0xd8d8d8, 0.97));
  var lamp = new THREE.DirectionalLight(0xffffff, 0.12);
  lamp.position.set(-200, -500, 900);
  scene.add(lamp);
  var camera = new THREE.OrthographicCamera(-1, 1, 1, -1, -3000, 3000);
  camera.up.set(0, 0, 1);

  function lines(geometry, colour, onTop) {
    var drawn = new THREE.LineSegments(geometry, new THREE.LineBasicMaterial({ color: colour, depthTest: !onTop }));
    drawn.frustumCulled = false;
    if (onTop) drawn.renderOrder = 2;
    scene.add(drawn);
    return drawn;
  }
  function meshOf(part) {
    var geometry = new THREE.BufferGeometry();
    geometry.setAttribute('position', new THREE.BufferAttribute(new Float32Array(part.place), 3));
    geometry.setAttribute('color', new THREE.BufferAttribute(new Float32Array(3 * part.nodes), 3));
    geometry.setIndex(new THREE.BufferAttribute(part.index, 1));
    var material = new THREE.MeshPhongMaterial({ // shaded by face: normals follow the bend
      shininess: 0, specular: 0x000000,
      vertexColors: THREE.VertexColors === undefined ? true : THREE.VertexColors,
      flatShading: true, side: THREE.DoubleSide,
      polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 // lines lie on it, not in it
    });
    var mesh = new THREE.Mesh(geometry, material);
    mesh.frustumCulled = false;
    scene.add(mesh);
    if (part.edge.length > 0) {
      var edges = new THREE.BufferGeometry();
      edges.setAttribute('position', geometry.getAttribute('position'));
      edges.setIndex(new THREE.BufferAttribute(part.edge, 1));
      mesh.edges = lines(edges, 0x303030, false);
    }
    return mesh;
  }
  var woodMesh = meshOf(wood), glueMesh = meshOf(glue);
  // Drawn over the wood that it lies on: two faces in one place would flicker through each other.
  glueMesh.material.depthTest = false;
  glueMesh.material.transparent = true;
  glueMesh.renderOrder = 1;
  function pointLines(points, colour, onTop) {
    var geometry = new THREE.BufferGeometry();
    geometry.setAttribute('position', new THREE.BufferAttribute(new Float32Array(3 * points), 3));
    return lines(geometry, colour, onTop);
  }
  var frets = pointLines(4 * marks.frets.length, 0x404040, false);
  // Line over the rest frets and stroke of the bow, drawn as thick as a few thin lines.
  var thick = [-0.45, -0.15, 0.15, 0.45];
  var chord = pointLines(2 * thick.length, 0x0d40a0, true), gap = pointLines(2 * thick.length, 0xcc1a1a, true);

  var box = new THREE.Box3().setFromBufferAttribute(new THREE.BufferAttribute(wood.place, 3));
  var middle = box.getCenter(new THREE.Vector3()), length = box.max.x - box.min.x;
  var controls = new THREE.OrbitControls(camera, canvas);
  controls.enableKeys = false;
  controls.enableZoom = false; // the wheel scrolls the page until the view has the focus
  canvas.addEventListener('focus', function () { controls.enableZoom = true; });
  canvas.addEventListener('blur', function () { controls.enableZoom = false; });
  controls.addEventListener('change', draw);

  function look(x, y, z) {
    controls.target.copy(middle);
    camera.position.set(middle.x + x * length, middle.y + y * length, middle.z + z * length);
    camera.zoom = 1;
    camera.updateProjectionMatrix();
    controls.update();
    draw();
  }
  function home() { look(0, -1, 0.0001); }

  // ---- what is shown ---------------------------------------------------------------------------
  var fields = wood.fields.map(function (f) { return { field: f, part: wood }; })
    .concat(glue.fields.map(function (f) { return { field: f, part: glue }; }));
  fields.forEach(function (one, i) { fieldSwitch.add(new Option(one.field.name, i)); });
  about.stages.forEach(function (stage, i) { stageSwitch.add(new Option(stage.name, i)); });

  // The largest bend that the side view has room for in all stages.
  (function () {
    var most = 0.1;
    wood.moved.forEach(function (moved) {
      for (var i = 0; i < wood.nodes; ++i)
        most = Math.max(most, Math.abs(moved[3 * i + 2]) * wood.step);
    });
    var fitting = Math.max(1, Math.floor(0.15 * length / most));
    scale.max = String(Math.max(2, fitting));
    scale.value = String(Math.min(fitting, 15));
  })();

  // `share` of the way from one stage to the next: 1 is there.
  function bend(part, mesh, from, to, share, times) {
    var position = mesh.geometry.getAttribute('position'), a = part.moved[from], b = part.moved[to];
    for (var i = 0; i < 3 * part.nodes; ++i)
      position.array[i] = part.place[i] + times * part.step * (a[i] + share * (b[i] - a[i]));
    position.needsUpdate = true;
  }
  function paint(part, mesh, field, from, to, share) {
    var attribute = mesh.geometry.getAttribute('color');
    var a = field && field.values[from], b = field && field.values[to];
    for (var i = 0; i < part.nodes; ++i) {
      var c = field ? neckColours.colour(field, field.min + (field.max - field.min) * (a[i] + share * (b[i] - a[i])) / 65535)
        : [0.8, 0.8, 0.8];
      for (var k = 0; k < 3; ++k) attribute.array[3 * i + k] = c[k];
    }
    attribute.needsUpdate = true;
  }
  // A point between two nodes as they lie now, [node, node, share].
  function placeOf(point) {
    var p = woodMesh.geometry.getAttribute('position').array;
    return [0, 1, 2].map(function (i) {
      return p[3 * point[0] + i] + point[2] * (p[3 * point[1] + i] - p[3 * point[0] + i]);
    });
  }
  function fill(drawn, points) {
    var position = drawn.geometry.getAttribute('position');
    points.forEach(function (p, n) { position.array.set(p, 3 * n); });
    position.needsUpdate = true;
  }
  function drawLandmarks() {
    var points = [];
    marks.frets.forEach(function (line) {
      var p = line.map(placeOf).map(function (q) { return [q[0], q[1], q[2] + 0.4]; });
      points.push(p[0], p[1], p[1], p[2]);
    });
    fill(frets, points);
    var a = marks.rest[0], b = marks.rest[1], along = 12, over = [], stroke = [];
    var board = marks.frets.length >= marks.bow_fret && marks.bow_fret > 0 ? placeOf(marks.frets[marks.bow_fret - 1][1]) : a;
    var height = a[2] + (b[2] - a[2]) * (board[0] - a[0]) / (b[0] - a[0]);
    thick.forEach(function (off) {
      over.push([a[0] - along, a[1], a[2] + off], [b[0] + along, b[1], b[2] + off]);
      stroke.push([board[0] + off, board[1], board[2]], [board[0] + off, board[1], height]);
    });
    fill(chord, over);
    fill(gap, stroke);
  }
  function show(from, to, share) {
    var times = Number(scale.value), chosen = fields[Number(fieldSwitch.value)], inGlue = chosen.part === glue;
    bend(wood, woodMesh, from, to, share, times);
    bend(glue, glueMesh, from, to, share, times);
    paint(wood, woodMesh, inGlue ? null : chosen.field, from, to, share);
    paint(glue, glueMesh, inGlue ? chosen.field : null, from, to, share);
    drawLandmarks();
    glueMesh.visible = inGlue;
    if (glueMesh.edges) glueMesh.edges.visible = inGlue;
    woodMesh.material.transparent = inGlue;
    woodMesh.material.opacity = inGlue ? 0.22 : 1;
    woodMesh.material.depthWrite = !inGlue;
    woodMesh.material.needsUpdate = true;
    draw();
  }
  var shown = 0;
  function update() {
    var stage = about.stages[shown = Number(stageSwitch.value)], field = fields[Number(fieldSwitch.value)].field;
    show(shown, shown, 1);
    neckColours.drawLegend(element('bar'), field);
    element('field-name').textContent = field.name + (field.colours === 'signed' ? ' (+ pulls, \u2212 presses)'
      : field.colours === 'use' ? ' (marks: caution, limit)' : '');
    element('times').textContent = 'bent ' + scale.value + ' times';
    element('now').textContent = stage.name + ' \u2013 ' + stage.moment;
    element('reading').textContent = 'Straightedge, centre: ' + stage.bow + '. Twist: ' + stage.twist + '.';
    element('said').textContent = 'The bend is drawn ' + scale.value + ' times as large as it is, the neck as a ' +
      'straightedge meets it. Blue: line over the rest frets; red: the bow.';
  }
  // Goes to another stage, by way of what lies between unless the reader wants no motion.
  function go(to) {
    var from = shown, began = null, takes = 600;
    stageSwitch.value = String(to);
    if (window.matchMedia('(prefers-reduced-motion: reduce)').matches) return update();
    shown = to;
    window.requestAnimationFrame(function frame(now) {
      began = began === null ? now : began;
      var share = Math.min(1, (now - began) / takes);
      if (shown !== to) return;
      if (share < 1) { show(from, to, share); window.requestAnimationFrame(frame); } else update();
    });
  }
  function step(by) { go((shown + by + about.stages.length) % about.stages.length); }
  var playing = null, play = element('play');
  function stop() { window.clearInterval(playing); playing = null; play.textContent = 'Play'; }
  play.addEventListener('click', function () {
    if (playing !== null) return stop();
    playing = window.setInterval(function () { step(1); }, 2000);
    play.textContent = 'Stop';
    step(1);
  });
  function draw() { renderer.render(scene, camera); }
  function fit() {
    var width = canvas.parentNode.clientWidth, height = Math.max(220, Math.round(width * 0.38));
    renderer.setPixelRatio(window.devicePixelRatio || 1);
    renderer.setSize(width, height);
    camera.right = 0.53 * length;
    camera.left = -camera.right;
    camera.top = camera.right * height / width;
    camera.bottom = -camera.top;
    camera.updateProjectionMatrix();
    neckColours.drawLegend(element('bar'), fields[Number(fieldSwitch.value) || 0].field);
    draw();
  }

  neckKeys(canvas, camera, controls, { draw: draw, home: home, step: step });
  element('home').addEventListener('click', home);
  element('above').addEventListener('click', function () { look(-0.1, -0.6, 0.8); });
  element('below').addEventListener('click', function () { look(-0.1, -0.6, -0.7); });
  element('before').addEventListener('click', function () { stop(); step(-1); });
  element('after').addEventListener('click', function () { stop(); step(1); });
  [stageSwitch, fieldSwitch].forEach(function (one) { one.addEventListener('change', function () { stop(); update(); }); });
  scale.addEventListener('input', update);
  window.addEventListener('resize', fit);

  document.documentElement.classList.add('gl'); // shows the canvas, which has no size before
  stageSwitch.value = String(Math.min(1, about.stages.length - 1));
  fit();
  home();
  update();
})();
