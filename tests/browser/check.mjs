// SPDX-License-Identifier: GPL-3.0-or-later
// Checks of one plan's pages in headless Chromium: see `run`. Each line of output is a claim.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, existsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { createRequire } from 'node:module';
import puppeteer from 'puppeteer-core';

const require = createRequire(import.meta.url);
const axeSource = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
const folder = path.resolve(process.argv[2]);
const pages = ['bench-card.html', 'report.html', 'index.html'];
const simulated = JSON.parse(readFileSync(path.join(folder, 'plan.json'), 'utf8')).columns.length > 0 &&
  existsSync(path.join(folder, 'results.h5'));
const scratch = mkdtempSync(path.join(tmpdir(), 'overbend-browser-'));
let failures = 0;

function claim(what, holds, detail = '') {
  console.log(`${holds ? 'ok  ' : 'FAIL'} ${what}${detail === '' ? '' : ': ' + detail}`);
  if (!holds) ++failures;
}
const address = (name) => pathToFileURL(path.join(folder, name)).href;
const launch = (...flags) => puppeteer.launch({
  executablePath: '/usr/bin/chromium', headless: true,
  args: ['--no-sandbox', '--disable-dev-shm-usage', ...flags],
});
const withGraphics = ['--use-angle=swiftshader', '--enable-unsafe-swiftshader'];

// Opens a page and gathers everything the console complains about.
async function open(browser, name, { script = true, width = 1100, height = 900, zoom = 1 } = {}) {
  const page = await browser.newPage();
  const complaints = [];
  page.on('console', (m) => { if (['error', 'warn', 'warning'].includes(m.type())) complaints.push(m.text()); });
  page.on('pageerror', (e) => complaints.push(String(e)));
  page.on('requestfailed', (r) => complaints.push('request failed: ' + r.url().slice(0, 80)));
  page.on('request', (r) => { if (!/^(file|data|blob):/.test(r.url())) complaints.push('network: ' + r.url()); });
  await page.setJavaScriptEnabled(script);
  await page.setViewport({ width: Math.round(width / zoom), height: Math.round(height / zoom), deviceScaleFactor: zoom });
  await page.goto(address(name), { waitUntil: 'load' });
  return { page, complaints };
}

// The texts of all shown numbers.
const numbersOf = (page) => page.evaluate(() =>
  Array.from(document.querySelectorAll('[data-value]')).map((e) => e.textContent).join('|'));

function pdfPages(file) {
  return Number(/Pages:\s+(\d+)/.exec(execFileSync('pdfinfo', [file], { encoding: 'utf8' }))[1]);
}

// Bytes of the drawing as a text, to tell two drawings apart; and how many colours it has.
const drawing = (page) => page.evaluate(() => {
  const canvas = document.getElementById('neck-canvas');
  const small = document.createElement('canvas');
  small.width = 200; small.height = 100;
  const pen = small.getContext('2d');
  pen.drawImage(canvas, 0, 0, 200, 100);
  const p = pen.getImageData(0, 0, 200, 100).data;
  const colours = new Set();
  let painted = 0;
  for (let i = 0; i < p.length; i += 4) {
    colours.add((p[i] << 16) | (p[i + 1] << 8) | p[i + 2]);
    if (p[i] < 235 || p[i + 1] < 235 || p[i + 2] < 235) ++painted;
  }
  return { bytes: Array.from(p).join(','), colours: colours.size, painted };
});

async function checkView(page) {
  const first = await drawing(page);
  claim('report: the view is drawn', first.painted > 300 && first.colours > 30,
    `${first.painted} of 20000 points painted, ${first.colours} colours`);
  const most = await page.$eval('#neck-scale', (e) => e.max);
  const scaleTo = (end) => page.$eval('#neck-scale', (e, which) => {
    e.value = e[which];
    e.dispatchEvent(new Event('input'));
  }, end);
  await scaleTo('min');
  const flat = await drawing(page);
  await scaleTo('max');
  const scaled = await drawing(page);
  claim('report: the slider changes the view', scaled.bytes !== flat.bytes);
  const words = await page.$eval('#neck-times', (e) => e.textContent);
  claim('report: the magnification is told', words.includes(` ${most} `), words);
  const stages = await page.$$eval('#neck-stage option', (all) => all.map((o) => o.value));
  claim('report: there are the stages', stages.length >= 5, `${stages.length}`);
  await page.select('#neck-stage', stages[stages.length - 1]);
  const staged = await drawing(page);
  claim('report: the stage switch changes the view', staged.bytes !== scaled.bytes);
  for (const field of await page.$$eval('#neck-field option', (all) => all.map((o) => [o.value, o.textContent]))) {
    await page.select('#neck-field', field[0]);
    const coloured = await drawing(page);
    claim(`report: coloured by ${field[1]}`, coloured.painted > 300 && coloured.colours > 20,
      `${coloured.colours} colours`);
  }
  const reading = await page.$eval('#neck-reading', (e) => e.textContent);
  claim('report: the reading of the stage stands beside the view', /Straightedge.*Twist/.test(reading), reading);
  const stage = await page.$eval('#neck-stage', (e) => e.value);
  await page.click('#neck-after');
  await new Promise((done) => setTimeout(done, 2500));
  claim('report: a button goes to the next stage', (await page.$eval('#neck-stage', (e) => e.value)) !== stage);
  const edge = await page.evaluate(() => {
    const canvas = document.getElementById('neck-canvas'), small = document.createElement('canvas');
    small.width = 200; small.height = 84;
    const pen = small.getContext('2d');
    pen.drawImage(canvas, 0, 0, 200, 84);
    const touched = (x, y, w, h) => pen.getImageData(x, y, w, h).data.some((v) => v < 235);
    return touched(0, 0, 200, 1) || touched(0, 83, 200, 1);
  });
  claim('report: bent as far as the slider goes the neck stays in the frame', !edge);
  const before = await drawing(page);
  await page.focus('#neck-canvas');
  await page.keyboard.press('ArrowLeft');
  claim('report: an arrow key turns the view', (await drawing(page)).bytes !== before.bytes);
}

async function checkAccess(page, name) {
  await page.evaluate(axeSource);
  const result = await page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }));
  const bad = result.violations.filter((v) => ['serious', 'critical'].includes(v.impact));
  claim(`${name}: axe finds no serious fault`, bad.length === 0,
    bad.map((v) => `${v.id} (${v.nodes.length}): ${v.nodes[0].html.slice(0, 90)}`).join('; '));
  const rest = result.violations.filter((v) => !bad.includes(v));
  if (rest.length > 0) console.log(`     ${name}: lesser remarks: ${rest.map((v) => v.id).join(', ')}`);
}

async function checkPrint(page, name) {
  for (const format of ['A4', 'Letter']) {
    const file = path.join(scratch, `${name}-${format}.pdf`);
    await page.pdf({ path: file, format, printBackground: false, preferCSSPageSize: false });
    const count = pdfPages(file);
    if (name === 'bench-card.html') claim(`card: one page on ${format}`, count === 1, `${count}`);
    else console.log(`     ${name}: ${count} pages on ${format}`);
  }
  await page.emulateMediaType('print');
  await page.setViewport({ width: 687, height: 970 }); // A4 within its margins, CSS pixels
  const cut = await page.evaluate(() => Array.from(document.querySelectorAll('img, svg, table, canvas'))
    .filter((e) => e.getClientRects().length > 0 && e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
    .map((e) => e.tagName + ' ' + (e.querySelector('caption')?.textContent ?? '').slice(0, 40)));
  claim(`${name}: nothing wider than the paper`, cut.length === 0, cut.join('; '));
  await page.emulateMediaType('screen');
}

// The attacker's script of the policy check must not run.
async function checkPolicy(page, name) {
  const ran = await page.evaluate(() => new Promise((done) => {
    const s = document.createElement('script');
    s.textContent = 'window.intruder = true;';
    document.body.append(s);
    setTimeout(() => done(window.intruder === true), 50);
  }));
  claim(`${name}: the policy stops a foreign script`, !ran);
}

// A phone at the bench: nothing runs out of the page; the clock starts, a step is ticked off, and
// both are still there when the page is opened again.
async function checkPhone(browser) {
  const { page, complaints } = await open(browser, 'bench-card.html', { width: 420, height: 800 });
  const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  claim('phone: the card fits 420 px', over <= 0, `${over} px too wide`);
  if (await page.$('#running button') === null) return; // a refusal has nothing to run
  await page.click('#running button');
  await new Promise((done) => setTimeout(done, 2100));
  const time = await page.$eval('#running .time', (e) => e.textContent);
  claim('phone: the clock runs', /^0:00:0[1-9]$/.test(time), time);
  const first = await page.$eval('#running .next', (e) => e.textContent);
  await page.click('.clock input');
  const second = await page.$eval('#running .next', (e) => e.textContent);
  claim('phone: a ticked step gives way to the next', first !== second, second);
  await page.reload({ waitUntil: 'load' });
  const kept = await page.$eval('.clock input', (e) => e.checked);
  claim('phone: what was ticked is kept', kept);
  claim('phone: no complaint in the console', complaints.length === 0, complaints.join('; '));
  await page.evaluate(() => window.localStorage.clear());
  await page.close();
}

const browser = await launch(...withGraphics);
const all = {};
for (const name of pages) {
  const { page, complaints } = await open(browser, name);
  all[name] = await numbersOf(page);
  claim(`${name}: no complaint in the console`, complaints.length === 0, complaints.join('; '));
  if (name === 'report.html' && simulated) await checkView(page);
  await checkAccess(page, name);
  await checkPrint(page, name);
  await checkPolicy(page, name);
  await page.close();
  const narrow = await open(browser, name, { zoom: 2, width: 1280 });
  const wide = await narrow.page.evaluate(() =>
    document.documentElement.scrollWidth - document.documentElement.clientWidth);
  claim(`${name}: at 200 % zoom nothing runs out at the side`, wide <= 1, `${wide} px`);
  await narrow.page.close();
}
for (const name of pages) {
  const { page } = await open(browser, name, { script: false });
  // Reading the page needs a script of ours: puppeteer's own still runs.
  claim(`${name}: without script all numbers are there`, (await numbersOf(page)) === all[name]);
  await page.close();
}
await checkPhone(browser);
await browser.close();

const plain = await launch('--disable-3d-apis');
const { page, complaints } = await open(plain, 'report.html');
claim('report: without WebGL all numbers are there', (await numbersOf(page)) === all['report.html']);
if (simulated) {
  const said = await page.$eval('#neck-without', (e) => e.getClientRects().length > 0 && e.textContent);
  claim('report: without WebGL it says so', /cannot be drawn/.test(said), String(said));
  claim('report: without WebGL no script fails', complaints.filter((c) => !/WebGL/.test(c)).length === 0,
    complaints.join('; ').slice(0, 200));
}
await plain.close();
rmSync(scratch, { recursive: true });
console.log(failures === 0 ? 'all checks hold' : `${failures} checks FAILED`);
process.exit(failures === 0 ? 0 : 1);
