import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { NARROW, type OpenedPages, openPages, WIDE } from './opened-pages.js';

let pages: OpenedPages;

beforeAll(async () => {
  pages = await openPages();
});

afterAll(() => pages?.close());

const CHECKER = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const PATHS = [
  '/',
  '/scenarios/works/plan',
  '/scenarios/works/plan?month=2027-12&set=/feeds/shops/haulage=400',
  '/scenarios/works/why',
  '/scenarios/works/offer',
  '/scenarios/works/offer/quotes',
  '/scenarios/works/what-ifs?what=sweep&number=/feeds/shops/haulage&from=0&to=2000',
  '/scenarios/works/what-ifs?what=fee&low-shops=100&high-shops=300',
  '/scenarios/works/what-ifs?what=tornado&percent=10',
  '/scenarios/month/what-ifs?what=risk&draws=20&seed=1',
  '/scenarios/month/what-ifs?what=compare&other=year',
  '/scenarios/works/plant',
];

interface Finding {
  readonly id: string;
  readonly impact: string | null;
  readonly nodes: readonly { readonly html: string }[];
}

for (const dark of [false, true]) {
  it(`the checker finds nothing serious against WCAG 2.2 AA, ${dark ? 'dark' : 'light'}`, async () => {
    const found: string[] = [];
    for (const viewport of [WIDE, NARROW]) {
      const { page, context } = await pages.open({ viewport, dark });
      for (const path of PATHS) {
        await page.goto(path, { waitUntil: 'networkidle' });
        await page.evaluate(CHECKER);
        const findings = (await page.evaluate(
          "axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }).then(({ violations }) => violations)",
        )) as Finding[];
        for (const { id, impact, nodes } of findings) {
          if (impact === 'serious' || impact === 'critical') {
            found.push(
              `${path} at ${viewport.width}: ${id}: ${nodes
                .slice(0, 2)
                .map(({ html }) => html.slice(0, 160))
                .join(' | ')}`,
            );
          }
        }
      }
      await context.close();
    }
    expect(found).toEqual([]);
  });
}

it('no page is wider than a narrow screen: only its tables and drawings scroll', async () => {
  const { page, context } = await pages.open({ viewport: NARROW });
  const wide: string[] = [];
  for (const path of PATHS) {
    await page.goto(path, { waitUntil: 'networkidle' });
    const width = await page.evaluate('document.documentElement.scrollWidth');
    if (Number(width) > NARROW.width) wide.push(`${path}: ${width}`);
  }
  expect(wide).toEqual([]);
  await context.close();
});

/** Controls and scrolling regions that are shown; a file's input is seen as its label. */
const CONTROLS = `[...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')]
  .filter((each) => !each.disabled && each.type !== 'hidden' && each.checkVisibility())`;

it('on every page every control is reached by keyboard, one after the other, and shows it', async () => {
  const { page, context } = await pages.open();
  const missed: string[] = [];
  for (const path of PATHS) {
    await page.goto(path, { waitUntil: 'networkidle' });
    const count = Number(await page.evaluate(`${CONTROLS}.length`));
    expect(count).toBeGreaterThan(3);
    const steps: number[] = [];
    for (let i = 0; i < count; i += 1) {
      await page.keyboard.press('Tab');
      const [at, outline, name] = (await page.evaluate(`{
        const active = document.activeElement;
        const shown = active.type === 'file' ? active.parentElement : active;
        [${CONTROLS}.indexOf(active), getComputedStyle(shown).outlineStyle, active.outerHTML.slice(0, 80)];
      }`)) as [number, string, string];
      if (outline === 'none') missed.push(`${path}: nothing shows the focus on ${name}`);
      steps.push(at);
    }
    // In the order in which they stand, none left out.
    const inOrder = Array.from({ length: count }, (_, i) => i);
    if (steps.join() !== inOrder.join()) missed.push(`${path}: ${steps.join()}`);
  }
  expect(missed).toEqual([]);
  await context.close();
});

it('prints every part of every drawing', async () => {
  const { page, context } = await pages.open();
  const drawn: string[] = [];
  for (const path of PATHS) {
    await page.goto(path, { waitUntil: 'networkidle' });
    await page.emulateMedia({ media: 'print' });
    const hidden = (await page.evaluate(
      `[...document.querySelectorAll('svg')]
        .filter((svg) => svg.checkVisibility())
        .flatMap((svg) => [...svg.querySelectorAll('rect, path, line, circle, text')])
        .filter((part) => part.closest('defs') === null && !part.matches('.title'))
        .map((part) => [part.outerHTML.slice(0, 80), getComputedStyle(part).display])`,
    )) as [string, string][];
    drawn.push(...hidden.filter(([, display]) => display === 'none').map(([part]) => `${path}: ${part}`));
    if (path.includes('number=')) expect(hidden.length).toBeGreaterThan(10);
    await page.emulateMedia({ media: 'screen' });
  }
  expect(drawn).toEqual([]);
  await context.close();
});

it('prints in black and greys alone', async () => {
  const { page, context } = await pages.open();
  await page.goto('/scenarios/works/plan', { waitUntil: 'networkidle' });
  await page.emulateMedia({ media: 'print' });
  const picture = (await page.screenshot({ fullPage: true })).toString('base64');
  const blank = await context.newPage();
  const colour = await blank.evaluate(`(async () => {
    const image = new Image();
    image.src = 'data:image/png;base64,${picture}';
    await image.decode();
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [image.width, image.height];
    const context = canvas.getContext('2d');
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
    let most = 0;
    for (let i = 0; i < data.length; i += 4) most = Math.max(most, Math.abs(data[i] - data[i + 1]), Math.abs(data[i + 1] - data[i + 2]));
    return most;
  })()`);
  expect(Number(colour)).toBeLessThanOrEqual(2);
  await context.close();
});
