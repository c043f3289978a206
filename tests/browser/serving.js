// What the browser's tests of the pages share: the program built once and
// serving an empty folder, chromium, and pages that report what goes wrong.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export const root = fileURLToPath(new URL('../..', import.meta.url));
const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

export const example = (name) => readFileSync(join(root, 'examples', name + '.yaml'), 'utf8');

// serving builds the program and starts it on a folder of its own.
export async function serving() {
  const dir = mkdtempSync(join(tmpdir(), 'bowerwright-serve-'));
  const program = join(dir, 'bowerwright');
  execFileSync('go', ['build', '-o', program, './cmd/bowerwright'], { cwd: root, env: { ...process.env, CGO_ENABLED: '0' } });
  const child = spawn(program, ['serve', join(dir, 'jobs'), '--addr', '127.0.0.1:0'], { stdio: ['ignore', 'pipe', 'pipe'] });
  const base = await new Promise((resolve, reject) => {
    let said = '';
    const hear = (chunk) => {
      said += chunk;
      const at = /http:\/\/127\.0\.0\.1:\d+/.exec(said);
      if (at) resolve(at[0]);
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    child.on('exit', (code) => reject(new Error(`serve ended with ${code}: ${said}`)));
  });
  const path = process.env.CHROMIUM || execFileSync('sh', ['-c', 'command -v chromium']).toString().trim();
  const browser = await chromium.launch({ executablePath: path, args: ['--no-sandbox'] });
  return {
    base,
    browser,
    program,
    dir,
    api: (method, at, body) => ask(base, method, at, body),
    async stop() {
      await browser.close();
      child.removeAllListeners('exit');
      const ended = new Promise((resolve) => child.on('exit', resolve));
      child.kill('SIGINT');
      await ended;
      rmSync(dir, { recursive: true, force: true });
    },
  };
}

async function ask(base, method, at, body) {
  const headers = { 'Content-Type': 'application/json', Bowerwright: '1' };
  const answer = await fetch(base + '/api' + at, { method, headers: method === 'GET' ? {} : headers, body: body && JSON.stringify(body) });
  const text = await answer.text();
  if (!answer.ok) throw new Error(`${method} ${at}: ${answer.status} ${text}`);
  return at.endsWith('/file') ? text : JSON.parse(text);
}

// open shows a page and gathers what goes wrong on it.
export async function open(on, hash, options) {
  const context = await on.browser.newContext(options);
  context.setDefaultTimeout(60_000); // a machine under load is slow, not wrong
  const page = await context.newPage();
  const wrong = [];
  page.on('console', (m) => ['error', 'warning'].includes(m.type()) && wrong.push(m.text()));
  page.on('pageerror', (e) => wrong.push(String(e)));
  page.on('request', (r) => r.url().startsWith(on.base) || /^(data|blob):/.test(r.url()) || wrong.push(`asks for ${r.url()}`));
  await page.goto(on.base + '/' + hash);
  return { page, wrong, close: () => context.close() };
}

// violations are what axe-core finds, a line each.
export async function violations(page) {
  await page.evaluate(axeSource);
  return page.evaluate(async (rules) => {
    const found = await globalThis.axe.run(document, { runOnly: { type: 'tag', values: rules }, resultTypes: ['violations'] });
    return found.violations.flatMap((v) => v.nodes.slice(0, 3).map((n) => `${v.id}: ${v.help}: ${n.html.slice(0, 160)}`));
  }, rules);
}
