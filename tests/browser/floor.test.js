// The floor as a person meets it: an example drawn again by mouse, by touch and
// by keys alone comes to the same set piece.
import { after, before, describe, test } from 'node:test';
import assert from 'node:assert/strict';
import { example, open, serving, violations } from './serving.js';

let on;
before(async () => (on = await serving()));
after(() => on?.stop());

const desk = { viewport: { width: 1280, height: 900 } };
const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

// withoutLayout is an example as it is before anything is laid out.
function withoutLayout(text) {
  return text.replace(/^layout:\n(?:(?: .*)?\n)*/m, '').replace(/^copies:\n(?:(?: .*)?\n)*/m, '').replace(/^  (seams|hooks):\n(?:    .*\n)*/gm, '');
}

async function taken(text) {
  return (await on.api('POST', '/jobs', { from: 'file', text })).id;
}

const middle = (points) => {
  // Of the corners: good enough to tell places apart, and the same on both sides.
  const sum = points.reduce((s, p) => [s[0] + p[0], s[1] + p[1]], [0, 0]);
  return [sum[0] / points.length, sum[1] / points.length];
};

// The hand's outline, in mm, as it is drawn.
const handMiddle = (page) =>
  page.evaluate(() => {
    const d = document.querySelector('svg[role=application] path.held')?.getAttribute('d');
    if (!d) return null;
    const points = d.slice(1, -1).split('L').map((p) => p.split(' ').map(Number));
    const sum = points.reduce((s, p) => [s[0] + p[0], s[1] + p[1]], [0, 0]);
    return [sum[0] / points.length, sum[1] / points.length];
  });

// screen says where mm of the view are on the page.
const screen = (page, p) =>
  page.evaluate(([x, y]) => {
    const svg = document.querySelector('svg[role=application]');
    const g = svg.querySelector('g[transform^=matrix]');
    const m = g.getCTM();
    const r = svg.getBoundingClientRect();
    return [m.a * x + m.e + r.left, m.d * y + m.f + r.top];
  }, p);

const near = (a, b, by) => Math.hypot(a[0] - b[0], a[1] - b[1]) < by;

// same compares two views, whatever their frames are called: kinds, places to 2 mm
// (a frame may be held by another of its sides, a gap further on), seams, size.
function same(got, want) {
  const left = [...got.frames];
  for (const f of want.frames) {
    const k = left.findIndex((g) => g.kind === f.kind && near(middle(g.outline), middle(f.outline), 2));
    assert.ok(k >= 0, `no ${f.kind} at ${middle(f.outline)}; left are ${left.map((g) => `${g.kind} at ${middle(g.outline)}`)}`);
    left.splice(k, 1);
  }
  assert.equal(left.length, 0);
  assert.deepEqual([got.seams.length, got.width.us, got.height.us], [want.seams.length, want.width.us, want.height.us]);
}

// drawn lays an example's frames anew, each with lay(page, frame, place).
async function drawn(name, options, lay) {
  const want = await on.api('GET', '/jobs/' + (await taken(example(name))));
  const id = await taken(withoutLayout(example(name)));
  const { page, wrong, close } = await open(on, `#/job/${id}/floor`, options);
  await page.waitForSelector('[data-kind]');
  const order = [...want.frames].sort((a, b) => middle(a.outline)[1] - middle(b.outline)[1] || middle(a.outline)[0] - middle(b.outline)[0]);
  for (const [i, f] of order.entries()) {
    const view = await on.api('GET', '/jobs/' + id);
    // What is there already tells where the left end will lie.
    let at = middle(f.outline);
    if (i > 0) {
      const first = view.frames.find((v) => v.kind === order[0].kind && v.id === firstId);
      const by = [middle(first.outline)[0] - middle(order[0].outline)[0], middle(first.outline)[1] - middle(order[0].outline)[1]];
      at = [at[0] + by[0], at[1] + by[1]];
    }
    await lay(page, f, at, i);
    for (let t = 0; ; t++) {
      const now = await on.api('GET', '/jobs/' + id);
      if (now.frames.length === i + 1) break;
      assert.ok(t < 100, `${f.id} was not kept: ${now.frames.length} frames, ${i + 1} wanted`);
      await page.waitForTimeout(50);
    }
    await page.waitForFunction((n) => document.querySelectorAll('[data-frame]').length === n && !document.querySelector('path.held'), i + 1);
  }
  const got = await on.api('GET', '/jobs/' + id);
  same(got, want);
  assert.deepEqual(wrong, []);
  await close();
  return id;
}
let firstId = '';

async function byMouse(page, f, at, i) {
  const cell = await page.locator(`[data-kind="${f.kind}"]`).boundingBox();
  const target = i === 0 ? await screen(page, [at[0], at[1]]) : await screen(page, at);
  await page.mouse.move(cell.x + cell.width / 2, cell.y + 40);
  await page.mouse.down();
  await page.mouse.move(cell.x + cell.width / 2, cell.y - 40, { steps: 2 });
  await page.mouse.move(target[0] + 3, target[1] - 3, { steps: 4 });
  await page.mouse.up();
  if (i === 0) {
    await page.waitForSelector('[data-frame]');
    firstId = await page.getAttribute('[data-frame]', 'data-frame');
    await page.getByRole('button', { name: 'All', exact: true }).click();
    // Room for what follows.
    for (let k = 0; k < 5; k++) await page.getByRole('button', { name: 'Further off' }).click();
  }
}

async function byTouch(page, f, at, i) {
  const cell = page.locator(`[data-kind="${f.kind}"]`);
  await cell.tap();
  const target = await screen(page, at);
  await page.touchscreen.tap(...(i === 0 ? [target[0], target[1]] : target));
  await page.waitForSelector('path.held');
  await page.getByRole('button', { name: 'Set down', exact: true }).tap();
  if (i === 0) {
    await page.waitForSelector('[data-frame]');
    firstId = await page.getAttribute('[data-frame]', 'data-frame');
    for (let k = 0; k < 5; k++) await page.getByRole('button', { name: 'Further off' }).tap();
  }
}

async function byKeys(page, f, at, i) {
  const cell = page.locator(`[data-kind="${f.kind}"]`);
  await cell.focus();
  await page.keyboard.press('Enter');
  await page.waitForSelector('path.held');
  let tabs = 0;
  while (i > 0 && !near(await handMiddle(page), at, 4)) {
    assert.ok(tabs++ < 60, `Tab does not come to the place of ${f.id}`);
    await page.keyboard.press('Tab');
  }
  await page.keyboard.press('Enter');
  if (i === 0) {
    await page.waitForSelector('[data-frame]');
    firstId = await page.getAttribute('[data-frame]', 'data-frame');
  }
}

describe('an example is drawn again', () => {
  test('by mouse', () => drawn('hop-lane', desk, byMouse));
  test('by touch', () => drawn('hop-lane', phone, byTouch));
  test('by keys alone', () => drawn('hop-lane', desk, byKeys));
});

test('every page is without violations, on a phone and at a desk, light and dark', async () => {
  const id = await taken(example('thistle-wall'));
  for (const options of [desk, { ...phone, colorScheme: 'dark' }]) {
    const { page, wrong, close } = await open(on, '#/', options);
    for (const name of ['', 'floor', 'frames', 'boards', 'fixing', 'stand', 'papers', 'job']) {
      await page.goto(on.base + '/#/' + (name && `job/${id}/${name}`));
      await page.waitForSelector(name ? 'main h1' : 'h1');
      await page.waitForTimeout(1200);
      assert.deepEqual(await violations(page), [], name || 'jobs');
    }
    assert.deepEqual(wrong, []);
    await close();
  }
});

test('with something in hand, something chosen and snags open there are no violations', async () => {
  const id = await taken(example('thistle-wall'));
  for (const options of [desk, phone]) {
    const { page, wrong, close } = await open(on, `#/job/${id}/floor`, options);
    await page.waitForSelector('[data-frame=S4]');
    await page.locator('[data-kind=small]').focus();
    await page.keyboard.press('Enter');
    await page.waitForSelector('path.held');
    assert.deepEqual(await violations(page), [], 'in hand');
    await page.keyboard.press('Escape');
    await page.locator('[data-frame=S4]').focus();
    await page.keyboard.press('Space');
    await page.getByRole('button', { name: /snags?$/i }).click();
    assert.deepEqual(await violations(page), [], 'chosen');
    assert.deepEqual(wrong, []);
    await close();
  }
});

test('every field that a job file may have stands on one page', async () => {
  const id = await taken(example('thistle-wall'));
  const { fields } = await on.api('GET', '/fields');
  const { page, wrong, close } = await open(on, `#/job/${id}/job`, desk);
  const seen = [];
  for (const name of ['frames', 'boards', 'fixing', 'stand', 'job']) {
    await page.goto(on.base + `/#/job/${id}/${name}`);
    await page.waitForSelector('main .field');
    seen.push(...(await page.evaluate(() => [...document.querySelectorAll('main [data-path]')].map((e) => e.dataset.path))));
  }
  for (const f of fields) assert.equal(seen.filter((s) => s === f.key).length, 1, f.key);
  for (const f of fields.filter((f) => f.form === 'fields' && f.fields && !f.under)) {
    for (const inner of f.fields) assert.ok(seen.includes(`${f.key}.${inner.key}`), `${f.key}.${inner.key}`);
  }
  assert.deepEqual(wrong, []);
  await close();
});

test('a job file is taken in and handed out byte for byte', async () => {
  const { page, wrong, close } = await open(on, '#/', desk);
  const text = example('lantern-gate');
  await page.locator('input[type=file]').setInputFiles({ name: 'gate.yaml', mimeType: 'text/yaml', buffer: Buffer.from(text) });
  await page.waitForSelector('[data-frame]');
  const id = /job\/([^/]+)/.exec(page.url())[1];
  assert.equal(await on.api('GET', `/jobs/${id}/file`), text);
  assert.deepEqual(wrong, []);
  await close();
});

test('what is moved can be taken back, and another window sees it', async () => {
  const id = await taken(example('thistle-wall'));
  const one = await open(on, `#/job/${id}/floor`, desk);
  const two = await open(on, `#/job/${id}/floor`, desk);
  await one.page.waitForSelector('[data-frame=S4]');
  await two.page.waitForSelector('[data-frame=S4]');
  await one.page.locator('[data-frame=S4]').focus();
  await one.page.keyboard.press('Delete');
  await two.page.waitForFunction(() => !document.querySelector('[data-frame=S4]'));
  await one.page.keyboard.press('Control+z');
  await one.page.waitForSelector('[data-frame=S4]');
  await two.page.waitForSelector('[data-frame=S4]');
  assert.equal(await on.api('GET', `/jobs/${id}/file`), example('thistle-wall'));
  assert.deepEqual([...one.wrong, ...two.wrong], []);
  await one.close();
  await two.close();
});

test('a wrong value is said beside its field and as a snag', async () => {
  const id = await taken(example('thistle-wall'));
  const { page, wrong, close } = await open(on, `#/job/${id}/job`, desk);
  const field = page.locator('#f-date');
  await field.fill('22 May');
  await field.press('Enter');
  await page.waitForSelector('#f-date-say .snag');
  assert.equal(await field.getAttribute('aria-invalid'), 'true');
  await page.getByRole('button', { name: /^\d+ snags?$/ }).click();
  const view = await on.api('GET', '/jobs/' + id);
  await page.getByRole('region', { name: 'To put right' }).getByText(view.snags[0].problem).first().waitFor();
  assert.deepEqual(wrong, []);
  await close();
});
