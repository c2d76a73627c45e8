// Holds HTML reports against html-validate, the reference HTML checker (vnu), axe-core in Chromium, and the width of a
// phone: `node check.mjs PROGRAM CASE.toml ...`. With SHOTS=FOLDER it leaves pictures there. Prints a line for each
// thing that is held, and ends with status 1 when one of them fails.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';
import { FileSystemConfigLoader, HtmlValidate } from 'html-validate';
import puppeteer from 'puppeteer-core';

const [program, ...cases] = process.argv.slice(2);
if (!program || cases.length === 0) {
  console.error('usage: node check.mjs PROGRAM CASE.toml ...');
  process.exit(2);
}
const require = createRequire(import.meta.url);
const here = path.dirname(new URL(import.meta.url).pathname);
const chromium = process.env.CHROMIUM ?? '/usr/bin/chromium';
const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'pullproof-pages-'));
let bad = 0;
function hold(good, what, more = '') {
  console.log(`${good ? 'ok' : 'FAILED'}: ${what}${good || !more ? '' : `\n${more}`}`);
  if (!good) bad += 1;
}

const pages = cases.map((file) => {
  const page = path.join(folder, `${path.basename(file, '.toml')}.html`);
  const run = spawnSync(program, ['report', file, '-o', page], { encoding: 'utf8' });
  hold([0, 1, 3].includes(run.status) && fs.existsSync(page), `${file} becomes a page`, run.stderr);
  return page;
}).filter((page) => fs.existsSync(page));

// A page with faults, to see that the checkers see them.
const faulty = path.join(folder, 'faulty.html');
fs.writeFileSync(faulty, '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>t</title></head><body><main><p id="a"><img src="x.png"></p><h1 id="a">x</h1>' +
  '<p style="color:#aaa;background:#fff;width:600px">pale and wide</p><table><tr><td><b></td></tr></table></main></body></html>\n');

// html-validate
const validator = new HtmlValidate(new FileSystemConfigLoader());
for (const page of pages) {
  const result = await validator.validateString(fs.readFileSync(page, 'utf8'), path.join(here, 'report.html'));
  const lines = result.results.flatMap((r) => r.messages).map((m) => `  ${m.line}:${m.column} ${m.ruleId}: ${m.message}`);
  hold(lines.length === 0, `html-validate: ${path.basename(page)}`, lines.slice(0, 20).join('\n'));
}

const seen = await validator.validateString(fs.readFileSync(faulty, 'utf8'), path.join(here, 'faulty.html'));
hold(!seen.valid, 'html-validate sees faults');

// The reference checker, on all pages at once: it takes its time to start.
const jar = path.join(path.dirname(require.resolve('vnu-jar/package.json')), 'build', 'dist', 'vnu.jar');
const vnu = spawnSync('java', ['-jar', jar, '--stdout', '--format', 'json', '--exit-zero-always', ...pages, faulty], { encoding: 'utf8', maxBuffer: 1 << 28 });
let messages = null;
try {
  messages = JSON.parse(vnu.stdout).messages;
} catch {
  hold(false, 'the reference HTML checker runs', `${vnu.error ?? ''}${vnu.stderr}`);
}
if (messages) {
  // How a person writes an accent is left as it is: the checker only remarks on it.
  hold(messages.some((m) => m.type === 'error' && m.url?.endsWith('/faulty.html')), 'the reference HTML checker sees faults');
  const faults = messages.filter((m) => !m.url?.endsWith('/faulty.html')).filter((m) => !(m.type === 'info' && m.message.includes('Unicode Normalization Form C')));
  const lines = faults.map((m) => `  ${path.basename(m.url ?? '')}:${m.lastLine} ${m.type}: ${m.message} ${m.extract ?? ''}`.slice(0, 300));
  hold(lines.length === 0, `the reference HTML checker: ${pages.length} pages`, lines.slice(0, 20).join('\n'));
}

// In a browser: accessibility, the width, and that nothing is asked for from outside.
const axe = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
const browser = await puppeteer.launch({
  executablePath: chromium,
  userDataDir: fs.mkdtempSync(path.join(folder, 'browser-')),
  args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
async function violations(tab) {
  await tab.evaluate(axe);
  return (await tab.evaluate(() => globalThis.axe.run(document, { resultTypes: ['violations'] }))).violations;
}
try {
  const control = await browser.newPage();
  await control.setViewport({ width: 360, height: 900 });
  await control.goto(`file://${faulty}`);
  const ids = (await violations(control)).map((v) => v.id);
  hold(ids.includes('image-alt') && ids.includes('color-contrast'), 'axe-core sees faults', ids.join(', '));
  hold(await control.evaluate(() => document.documentElement.scrollWidth > innerWidth), 'a page that is too wide is seen');
  await control.close();
  for (const page of pages) {
    const name = path.basename(page, '.html');
    for (const width of [360, 1400]) {
      for (const scheme of ['light', 'dark']) {
        const tab = await browser.newPage();
        const asked = [];
        tab.on('request', (r) => asked.push(r.url()));
        await tab.setBypassCSP(true); // axe is a script, and the page allows none
        await tab.setViewport({ width, height: 900, deviceScaleFactor: 1 });
        await tab.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }]);
        await tab.goto(`file://${page}`);
        await tab.evaluate(() => document.querySelectorAll('details').forEach((d) => { d.open = true; }));
        const as = `${name}, ${width} px, ${scheme}`;
        const wide = await tab.evaluate(() => {
          const over = [...document.querySelectorAll('body *')].filter((e) => !e.closest('.hidden, thead, caption, svg') && e.getBoundingClientRect().right > innerWidth + 0.5);
          return { by: document.documentElement.scrollWidth - innerWidth, who: over.slice(0, 5).map((e) => e.outerHTML.slice(0, 160)) };
        });
        hold(wide.by <= 0 && wide.who.length === 0, `no sideways scrolling: ${as}`, `  ${wide.by} px too wide\n  ${wide.who.join('\n  ')}`);
        const lines = (await violations(tab)).map((v) => `  ${v.id} (${v.impact}): ${v.help}: ${v.nodes.slice(0, 3).map((n) => `${n.html.slice(0, 120)} ${n.failureSummary?.replaceAll('\n', ' ').slice(0, 200)}`).join(' | ')}`);
        hold(lines.length === 0, `axe-core: ${as}`, lines.join('\n'));
        hold(asked.length === 1, `asks for nothing but itself: ${as}`, asked.join('\n'));
        if (process.env.SHOTS) {
          await tab.evaluate(() => document.querySelectorAll('details').forEach((d, i) => { d.open = i === 0; }));
          await tab.screenshot({ path: path.join(process.env.SHOTS, `${name}-${width}-${scheme}.png`), fullPage: true });
        }
        await tab.close();
      }
    }
    // What is folded away on a screen stands open on paper.
    const tab = await browser.newPage();
    const shut = async (media) => {
      await tab.emulateMediaType(media);
      await tab.goto(`file://${page}`);
      await tab.evaluate(() => new Promise((done) => { requestAnimationFrame(() => requestAnimationFrame(done)); }));
      return tab.evaluate(() => [...document.querySelectorAll('details > div')].filter((e) => !e.checkVisibility()).length);
    };
    const onScreen = await shut('screen');
    const onPaper = await shut('print');
    hold(onScreen > 0 && onPaper === 0, `working is folded on a screen and open on paper: ${name}`, `  shut on a screen: ${onScreen}, on paper: ${onPaper}`);
    if (process.env.SHOTS) await tab.pdf({ path: path.join(process.env.SHOTS, `${name}.pdf`), preferCSSPageSize: true });
    await tab.close();
  }
} finally {
  await browser.close();
  fs.rmSync(folder, { recursive: true, force: true });
}
console.log(bad === 0 ? 'every page holds' : `${bad} held not`);
process.exit(bad === 0 ? 0 : 1);
