// SPDX-License-Identifier: GPL-3.0-or-later
// Keys of the interactive view: what a mouse does by dragging, and the stages.
function neckKeys(canvas, camera, controls, act) {
  'use strict';
  function turn(sideways, upwards, closer) {
    var arm = camera.position.clone().sub(controls.target);
    arm.applyAxisAngle(camera.up, sideways);
    var across = new THREE.Vector3().crossVectors(camera.up, arm).normalize();
    var lifted = arm.clone().applyAxisAngle(across, upwards);
    if (Math.abs(lifted.z) < 0.985 * lifted.length()) arm = lifted;
    camera.position.copy(controls.target).add(arm);
    camera.zoom *= closer;
    camera.updateProjectionMatrix();
    controls.update();
    act.draw();
  }
  var angle = 0.12;
  var moves = {
    ArrowLeft: [-angle, 0, 1], ArrowRight: [angle, 0, 1], ArrowUp: [0, -angle, 1], ArrowDown: [0, angle, 1],
    '+': [0, 0, 1.14], '=': [0, 0, 1.14], '-': [0, 0, 0.88]
  };
  canvas.addEventListener('keydown', function (event) {
    if (event.key === '0') act.home();
    else if (event.key === 'n') act.step(1);
    else if (event.key === 'p') act.step(-1);
    else if (moves[event.key]) turn.apply(null, moves[event.key]);
    else return;
    event.preventDefault();
  });
}
