// SPDX-License-Identifier: GPL-3.0-or-later
// The dossier in a real browser: valid HTML, no accessibility fault, nothing loaded and no script,
// nothing wider than a phone, light and dark, clean printed pages. Every answer as a part of a page:
// valid HTML, no accessibility fault.
//
//     node dossier.mjs MENSUR [PICTURES]
//
// With a folder for PICTURES, screenshots are left there to be looked at. Exit 77 where a package
// of package.json, or chromium, is missing.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';
const [mensur, pictures] = process.argv.slice(2);

let axeSource, chromium, HtmlValidate;
try {
  ({ chromium } = await import('playwright-core'));
  ({ HtmlValidate } = await import('html-validate'));
  axeSource = (await import('axe-core')).default.source;
} catch {
  process.exit(77);
}
if (!existsSync(CHROMIUM)) {
  process.exit(77);
}

const names = ['<b>&"\'x', 'ויולה גדולה (1)', 'W'.repeat(200), 'a\u0301\u0323'.repeat(60)];
const folder = mkdtempSync(join(tmpdir(), 'dossier-'));
let number = 0;
let bad = 0;

function report(good, what, more = '') {
  number += 1;
  bad += good ? 0 : 1;
  console.log(`${good ? 'ok' : 'not ok'} ${number} - ${what}${good ? '' : `: ${more}`}`);
}

function writeShop() {
  const quote = (name) => `"${name.replaceAll('"', '""')}"`;
  const rows = names.map((name, i) => `${quote(name)},viola,viola gut,410,${214 + 4 * i},147`);
  writeFileSync(join(folder, 'instruments.csv'),
    ['name,family,strings,body,stop,neck', ...rows].join('\n'));
}

function make(file, ...args) {
  const path = join(folder, file);
  const done = spawnSync(mensur, ['dossier', ...args, '--output', path]);
  if (done.status > 1) {
    throw new Error(done.stderr.toString());
  }
  return path;
}

const validator = new HtmlValidate({
  root: true,
  extends: ['html-validate:recommended', 'html-validate:a11y'],
  rules: {
    'no-inline-style': 'error',
    'long-title': 'off', // a name may be long
    'no-trailing-whitespace': 'off', // so may one that ends with a blank
    // The region is there so that a wide table can be scrolled by keyboard (WCAG 2.1.1).
    'prefer-native-element': 'off',
  },
});

async function validate(html, what) {
  const found = await validator.validateString(html);
  const messages = found.results.flatMap((r) => r.messages);
  report(messages.length === 0, `${what} is valid HTML`,
    messages.slice(0, 5).map((m) => `${m.line}:${m.column} ${m.ruleId} ${m.message}`).join('; '));
}

async function checkAccess(page, what) {
  // Run from outside the page's own policy, which forbids every script.
  const client = await page.context().newCDPSession(page);
  await client.send('Page.enable');
  const { frameTree } = await client.send('Page.getFrameTree');
  const { executionContextId } = await client.send('Page.createIsolatedWorld',
    { frameId: frameTree.frame.id });
  await client.send('Runtime.evaluate', { expression: axeSource, contextId: executionContextId });
  const { result } = await client.send('Runtime.evaluate', {
    contextId: executionContextId,
    awaitPromise: true,
    returnByValue: true,
    expression: `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa',
      'wcag22aa', 'best-practice'] }).then((r) => r.violations.map((v) =>
      v.id + ' ' + v.nodes.slice(0, 2).map((n) => n.html.slice(0, 120)).join(' | ')))`,
  });
  report(Array.isArray(result.value) && result.value.length === 0, `${what} has no fault of access`,
    JSON.stringify(result.value));
}

async function look(browser, path, what, width, colorScheme) {
  const page = await browser.newPage({ viewport: { width, height: 800 }, colorScheme });
  const asked = [];
  const said = [];
  page.on('request', (request) => asked.push(request.url()));
  page.on('console', (message) => said.push(message.text()));
  await page.goto(pathToFileURL(path).href);
  const shown = await page.evaluate(() => ({
    wide: document.documentElement.scrollWidth,
    paper: getComputedStyle(document.body).backgroundColor,
    svgs: [...document.querySelectorAll('svg')].map((svg) => svg.getBoundingClientRect().width),
  }));
  const where = `${what}, ${width} px, ${colorScheme}`;
  report(shown.wide <= width, `${where}: nothing is wider than the window`, `${shown.wide} px`);
  report(shown.paper === (colorScheme === 'dark' ? 'rgb(23, 21, 18)' : 'rgb(250, 247, 241)'),
    `${where}: the style sheet passes the page's own policy`, shown.paper);
  report(shown.svgs.length >= 3 && shown.svgs.every((w) => w > width * 0.4 || w >= 480),
    `${where}: drawings are large enough`, shown.svgs.join(' '));
  report(asked.length === 1 && said.length === 0, `${where}: nothing is loaded, nothing complains`,
    [...asked, ...said].join(' '));
  await checkAccess(page, where);
  if (pictures) {
    await page.screenshot({ path: join(pictures, `${what}-${width}-${colorScheme}.png`),
      fullPage: true });
  }
  await page.close();
}

async function print(browser, path, what) {
  const page = await browser.newPage({ colorScheme: 'dark' });
  await page.goto(pathToFileURL(path).href);
  const pdf = await page.pdf({ format: 'A4', printBackground: true,
    path: pictures ? join(pictures, `${what}.pdf`) : undefined });
  const pages = (pdf.toString('latin1').match(/\/Type \/Page\b/g) ?? []).length;
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  const paper = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  report(paper === 'rgb(255, 255, 255)' && pages > 1 && pages < 14,
    `${what} prints dark on white`, `${paper}, ${pages} pages`);
  await page.close();
}

// Every answer as --format html gives it: a part of a page, which is put into one here.
const answers = ['lengths kestrel dipper', 'lengths', 'lengths kestrel --working',
  'tension kestrel heron --feel', 'fingers kestrel --true', 'compare kestrel heron dipper',
  'change kestrel neck=+4', 'neck kestrel --like heron', 'stop kestrel --string-length 368..372',
  'restring kestrel --working', 'reach kestrel heron bittern --player small --working', 'check'];

async function lookAtAnswer(browser, words) {
  const done = spawnSync(mensur, [...words.split(' '), '--format', 'html']);
  const html = ['<!DOCTYPE html>', '<html lang="en">', '<head>', '<meta charset="utf-8">',
    `<title>${words}</title>`, '</head>', '<body>', '<main>', '<h1>The shop</h1>', '<h2>Answer</h2>',
    `${done.stdout}</main>`, '</body>', '</html>', ''].join('\n');
  report(done.status < 2 && done.stdout.length > 0, `${words} is answered`, done.stderr.toString());
  await validate(html, words);
  const page = await browser.newPage();
  await page.setContent(html);
  await checkAccess(page, words);
  await page.close();
}

writeShop();
const shop = ['--shop', folder];
const dossiers = {
  one: make('one.html', 'kestrel', '--like', 'heron', '--left-reach', '..552'),
  two: make('two.html', 'heron', 'bittern', 'dipper', '--inches'),
  names: make('names.html', ...names, ...shop),
};
const browser = await chromium.launch({
  executablePath: CHROMIUM,
  args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
});
try {
  for (const [what, path] of Object.entries(dossiers)) {
    await validate(readFileSync(path, 'utf8'), what);
    for (const width of [360, 1280]) {
      for (const scheme of ['light', 'dark']) {
        await look(browser, path, what, width, scheme);
      }
    }
    await print(browser, path, what);
  }
  for (const words of answers) {
    await lookAtAnswer(browser, words);
  }
} finally {
  await browser.close();
  rmSync(folder, { recursive: true });
}
console.log(`1..${number}`);
process.exit(bad > 0 ? 1 : 0);
