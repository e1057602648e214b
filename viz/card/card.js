// SPDX-License-Identifier: GPL-3.0-or-later
// The card's clock for a phone at the bench: a tap starts it when the heat comes on; it counts, names
// the next step, and steps can be ticked off. What was started and ticked is kept on this device, by
// plan. Without script, or on paper, the table of times stands alone.
(() => {
  'use strict';
  const rows = [...document.querySelectorAll('.clock tbody tr')];
  const place = document.getElementById('running');
  if (!place || rows.length === 0) return;
  const key = 'overbend card ' + document.body.dataset.plan;
  const memory = (() => {
    try {
      return JSON.parse(window.localStorage.getItem(key)) || {};
    } catch (error) {
      return {}; // no storage, or nothing of ours in it
    }
  })();
  memory.done = memory.done || {};
  const keep = () => {
    try {
      window.localStorage.setItem(key, JSON.stringify(memory));
    } catch (error) {
      // The clock runs all the same.
    }
  };

  // Seconds on the clock of each step; those after the release count from it.
  const seconds = (row) => Number(row.querySelector('th data').value);
  const release = rows.find((row) => row.dataset.step === 'release');
  const at = (row) =>
    seconds(row) + (row.dataset.from === 'release' && release ? seconds(release) : 0);

  const two = (value) => String(value).padStart(2, '0');
  const clock = (value) => {
    const whole = Math.round(Math.abs(value));
    return (value < 0 ? '-' : '') + Math.floor(whole / 3600) + ':' +
      two(Math.floor(whole / 60) % 60) + ':' + two(whole % 60);
  };

  const button = document.createElement('button');
  button.type = 'button';
  const time = document.createElement('p');
  time.className = 'time';
  time.setAttribute('role', 'timer');
  const next = document.createElement('p');
  next.className = 'next';
  next.setAttribute('aria-live', 'polite'); // changes only with the step
  const left = document.createElement('p');
  place.append(button, time, next, left);

  rows.forEach((row, index) => {
    const box = document.createElement('input');
    box.type = 'checkbox';
    box.checked = Boolean(memory.done[index]);
    const label = row.querySelector('td').textContent.trim();
    box.setAttribute('aria-label', 'done: ' + label);
    row.classList.toggle('done', box.checked);
    box.addEventListener('change', () => {
      memory.done[index] = box.checked;
      row.classList.toggle('done', box.checked);
      keep();
      show();
    });
    row.querySelector('td').prepend(box);
  });

  function show() {
    const runs = typeof memory.start === 'number';
    const now = runs ? (Date.now() - memory.start) / 1000 : 0;
    button.textContent = runs ? 'Set the clock back' : 'Heat is on: start the clock';
    time.textContent = runs ? clock(now) : '';
    const index = rows.findIndex((row, k) => !memory.done[k]);
    const step = index < 0 ? 'All steps are ticked off.'
      : 'Next: ' + rows[index].querySelector('td').textContent.trim();
    if (next.textContent !== step) next.textContent = step;
    const wait = index < 0 ? 0 : at(rows[index]) - now;
    left.textContent = !runs || index < 0 ? '' : wait > 0 ? 'in ' + clock(wait) : 'now';
  }

  button.addEventListener('click', () => {
    if (typeof memory.start === 'number') {
      if (!window.confirm('Set the clock and all ticks back?')) return;
      delete memory.start;
      memory.done = {};
      rows.forEach((row) => {
        row.classList.remove('done');
        row.querySelector('input').checked = false;
      });
    } else {
      memory.start = Date.now();
    }
    keep();
    show();
  });
  show();
  window.setInterval(show, 1000);
})();
