// The packet's page in a browser: what a person with a phone, a keyboard or a
// screen reader meets. It wants Go, and Chromium as CHROMIUM says or as the
// system has it; where one is missing the tests fail.
import { after, before, describe, test } from 'node:test';
import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const root = fileURLToPath(new URL('../..', import.meta.url));
const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const phone = { width: 390, height: 844 };
const desk = { width: 1280, height: 900 };

let dir, browser;
const pages = []; // { name, url }

before(async () => {
  dir = mkdtempSync(join(tmpdir(), 'bowerwright-'));
  const program = join(dir, 'bowerwright');
  execFileSync('go', ['build', '-o', program, './cmd/bowerwright'], { cwd: root, env: { ...process.env, CGO_ENABLED: '0' } });
  for (const file of readdirSync(join(root, 'examples')).filter((f) => f.endsWith('.yaml'))) {
    const out = join(dir, basename(file, '.yaml'));
    const run = spawnSync(program, ['plan', join(root, 'examples', file), '-o', out], { stdio: 'ignore' });
    assert.ok([0, 3].includes(run.status), `${file}: plan ends with ${run.status}`); // 3: planned, with something over
    pages.push({ name: basename(file, '.yaml'), url: pathToFileURL(join(out, 'packet.html')).href });
  }
  const path = process.env.CHROMIUM || execFileSync('sh', ['-c', 'command -v chromium']).toString().trim();
  browser = await chromium.launch({ executablePath: path, args: ['--no-sandbox'] });
});

after(async () => {
  await browser?.close();
  rmSync(dir, { recursive: true, force: true });
});

// open shows a page and gathers what goes wrong on it, and what it asks for
// beside itself.
async function open(url, options) {
  const context = await browser.newContext(options);
  context.setDefaultTimeout(120_000); // a machine under load is slow, not wrong
  const page = await context.newPage();
  const wrong = [];
  page.on('console', (m) => ['error', 'warning'].includes(m.type()) && wrong.push(m.text()));
  page.on('pageerror', (e) => wrong.push(String(e)));
  page.on('request', (r) => r.url() === url || r.url().startsWith('data:') || wrong.push(`asks for ${r.url()}`));
  await page.goto(url);
  return { page, wrong, close: () => context.close() };
}

// violations are what axe-core finds, a line each. Rows and boxes after the first
// few are made alike and would only take time; so would the strokes of a
// drawing, which is one picture to a reader. Contrast takes the most: see pale.
async function violations(page) {
  const alike = 'tbody tr:nth-child(n+4), label:nth-of-type(n+3), li:nth-child(n+5), svg > :not(title, desc)';
  await page.evaluate((s) => document.querySelectorAll(s).forEach((e) => e.remove()), alike);
  return axe(page, { runOnly: { type: 'tag', values: rules }, rules: { 'color-contrast': { enabled: false } } }, 20);
}

// pale is what axe-core finds too pale: of elements of one kind in one kind of
// place, which the style sheet colours alike, the first two stand for all.
async function pale(page) {
  await page.evaluate(() => {
    document.querySelectorAll('svg > :not(title, desc)').forEach((e) => e.remove());
    // The bar that says "more to the right" is no ground that words stand on.
    document.querySelectorAll('.scroll').forEach((e) => { e.style.background = 'none'; });
    const seen = new Map();
    for (const e of [...document.querySelectorAll('body *:not(svg *)')]) {
      let key = '';
      for (let up = e; up !== document.body && up; up = up.parentElement) key += `${up.localName}.${up.className} `;
      const n = (seen.get(key) ?? 0) + 1;
      seen.set(key, n);
      if (n > 2) e.remove();
    }
  });
  return axe(page, { runOnly: { type: 'rule', values: ['color-contrast'] } }, 1);
}

async function axe(page, options, least) {
  await page.evaluate(axeSource);
  const found = await page.evaluate((o) => globalThis.axe.run(document, { ...o, resultTypes: ['violations'] }), options);
  assert.ok(found.passes.length >= least, 'axe-core looked at next to nothing');
  return found.violations.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.target.join(' ')}: ${n.html.slice(0, 160)}`));
}

async function each(options, look) {
  assert.ok(pages.length >= 2, 'no examples');
  for (const { name, url } of pages) {
    const { page, wrong, close } = await open(url, options);
    await look(page, name);
    assert.deepEqual(wrong, [], name);
    await close();
  }
}

describe('packet.html', () => {
  for (const viewport of [phone, desk]) {
    test(`has nothing that WCAG 2.2 AA forbids at ${viewport.width} px`, () =>
      each({ viewport }, async (page, name) => assert.deepEqual(await violations(page), [], name)));

    test(`does not scroll sideways at ${viewport.width} px`, () =>
      each({ viewport }, async (page, name) => {
        const wide = await page.evaluate(() => document.scrollingElement.scrollWidth);
        assert.ok(wide <= viewport.width, `${name} is ${wide} px wide`);
      }));
  }

  test('a phone shows every column of a table, and every drawing whole', () =>
    each({ viewport: phone }, async (page, name) => {
      const cut = await page.evaluate(() =>
        [...document.querySelectorAll('.scroll:not(.strip)')].filter((e) => e.scrollWidth > e.clientWidth + 1).map((e) => e.ariaLabel));
      assert.deepEqual(cut, [], name);
    }));

  test('a drawing is made larger, and small again', () =>
    each({ viewport: phone }, async (page, name) => {
      const box = page.locator('main .zoom input').first();
      const wide = () => page.evaluate(() => document.querySelector('main .zoom + .pic svg').getBoundingClientRect().width);
      const fitted = await wide();
      assert.ok(fitted <= phone.width, name);
      await box.check();
      assert.ok((await wide()) > 1.5 * fitted, name);
      await box.uncheck();
      assert.equal(await wide(), fitted, name);
    }));

  test('a figure stands in one line', () =>
    each({ viewport: phone }, async (page, name) => {
      const parted = await page.evaluate(() => [...document.querySelectorAll('.mixed')].filter((e) => e.getClientRects().length > 1).length);
      assert.equal(parted, 0, name);
    }));

  for (const look of [{ colorScheme: 'light' }, { colorScheme: 'dark' }, { contrast: 'more' }, { colorScheme: 'dark', contrast: 'more' }]) {
    test(`can be read with ${JSON.stringify(look)}`, () =>
      each({ viewport: desk, ...look }, async (page, name) => assert.deepEqual(await pale(page), [], name)));
  }

  test('the page it forbids is found', async () => {
    const { page, close } = await open(pages[0].url, { viewport: phone });
    await page.evaluate(() => {
      document.querySelector('h2').outerHTML = '<h5>deep</h5><img src="data:,"><p style="color:#bbb;background:#fff">pale</p>';
    });
    const found = [...(await violations(page)), ...(await pale(page))].join('\n');
    for (const rule of ['heading-order', 'image-alt', 'color-contrast']) assert.match(found, new RegExp(rule));
    await close();
  });

  test('a fraction is copied as it is typed', () =>
    each({ viewport: desk }, async (page, name) => {
      const copied = await page.evaluate(() => {
        const cell = document.querySelector('td .frac, th .frac').closest('td, th');
        getSelection().selectAllChildren(cell);
        return getSelection().toString();
      });
      assert.match(copied, /(^|[\s\u00a0(])\d+\/\d+[\s\u00a0]in/, name);
      assert.doesNotMatch(copied, /\u2044/, name);
    }));

  test('the keyboard skips to the papers and reaches every box that scrolls', () =>
    each({ viewport: phone }, async (page, name) => {
      await page.keyboard.press('Tab');
      await page.keyboard.press('Enter');
      assert.equal(await page.evaluate(() => document.activeElement.id), 'papers', name);
      const stuck = await page.evaluate(() =>
        [...document.querySelectorAll('*')]
          .filter((e) => ['auto', 'scroll'].includes(getComputedStyle(e).overflowX) && e.scrollWidth > e.clientWidth && e.tabIndex < 0)
          .map((e) => e.outerHTML.slice(0, 90)));
      assert.deepEqual(stuck, [], name);
    }));

  test('the contents lead to every paper, in its order', () =>
    each({ viewport: desk }, async (page, name) => {
      const [to, have] = await page.evaluate(() => [
        [...document.querySelectorAll('nav a')].map((a) => a.hash),
        [...document.querySelectorAll('main section')].map((s) => `#${s.id}`),
      ]);
      assert.ok(have.length > 4, name);
      assert.deepEqual(to, have, name);
    }));

  test('boxes can be ticked, and are forgotten', () =>
    each({ viewport: phone }, async (page, name) => {
      const box = page.locator('input[type=checkbox]').first();
      await box.focus();
      await page.keyboard.press('Space');
      assert.ok(await box.isChecked(), name);
      await page.reload();
      assert.ok(!(await box.isChecked()), name);
    }));

  test('nothing moves for who asks for that', () =>
    each({ viewport: desk, reducedMotion: 'reduce' }, async (page, name) => {
      assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior), 'auto', name);
    }));

  test('prints black on white', () =>
    each({ viewport: desk, colorScheme: 'dark' }, async (page, name) => {
      await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
      const [paper, ink] = await page.evaluate(() => {
        const s = getComputedStyle(document.querySelector('main section'));
        return [s.backgroundColor, s.color];
      });
      assert.equal(paper, 'rgb(255, 255, 255)', name);
      assert.equal(ink, 'rgb(34, 30, 24)', name);
    }));
});
