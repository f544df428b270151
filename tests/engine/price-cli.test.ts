import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { parseCatalogue, parseEstimate, parseRates, priceEstimate, type PricedEstimate } from '../../src/index.js';

const root = fileURLToPath(new URL('../../', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'baysheet-price-'));
afterAll(() => rmSync(folder, { recursive: true }));

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

function price(...args: string[]): Promise<Ended> {
  const child = spawn(process.execPath, ['--import', 'tsx', 'demo/price.ts', ...args], { cwd: root });
  let out = '';
  let err = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
  });
}

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

/** A document of the project, to be changed before it is written to a file of its own. */
function document(path: string): any {
  return JSON.parse(readFileSync(join(root, path), 'utf8'));
}

function priced(estimatePath: string): PricedEstimate {
  const estimate = parseEstimate(document(estimatePath));
  const catalogue = parseCatalogue(document('rates/catalogue.demo.json'));
  const rates = parseRates(document('rates/card.demo.json'));
  if (!estimate.ok || !catalogue.ok || !rates.ok) throw new Error('the demo does not read');
  return priceEstimate({ estimate: estimate.value, catalogue: catalogue.value, rates: rates.value });
}

describe('the priced table', () => {
  it('shows the worked check of the plenum: both jobs, the shared step, and what it saves', async () => {
    const { code, out, err } = await price('demo/plenum.estimate.json');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^l1 +Replace the upper plenum gasket +2 +1\.2 +0\.8 +150\.00 +120\.00 +proposed$/m);
    expect(out).toMatch(/^l2 +Replace the injector O-rings +2\.6 +0 +2\.6 +150\.00 +390\.00 +proposed$/m);
    expect(out).toMatch(/^Upper plenum off and on +1\.2 +l2 +l1, l2 +1\.2$/m);
    expect(out).toMatch(/^labour +510\.00$/m);
    expect(out).toContain('1.2 h of labour, 180.00 USD');
  });

  it('has every line, part and total of the van, figures in straight columns', async () => {
    const { code, out } = await price('demo/van.estimate.json');
    const van = priced('demo/van.estimate.json');
    expect(code).toBe(0);
    for (const line of van.lines) expect(out).toMatch(new RegExp(`^${line.id} `, 'm'));
    for (const charge of van.charges) {
      if (charge.kind !== 'labour') expect(out).toContain(charge.title);
    }
    expect(out).toMatch(new RegExp(`^TOTAL +${van.totals.total.replace('.', '\\.')}$`, 'm'));

    const rows = out.split('\n');
    const heading = rows.find((row) => row.startsWith('line '))!;
    const end = heading.indexOf('amount') + 'amount'.length;
    const amounts = rows.slice(rows.indexOf(heading) + 2, rows.indexOf('Shared work, paid once') - 1);
    for (const row of amounts.filter((row) => !row.includes('note:'))) {
      expect(row.slice(0, end)).toMatch(/\d\.\d\d$/);
      expect(row.slice(end)).toMatch(/^($| {2}\w)/);
    }
  });

  it('prints the priced estimate itself with --json', async () => {
    const { code, out } = await price('--json', 'demo/brakes.estimate.json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toEqual(priced('demo/brakes.estimate.json'));
  });

  it('takes another catalogue and another rate card', async () => {
    const rates = document('rates/card.demo.json');
    rates.labourClasses[0].rate = '100.00';
    const catalogue = document('rates/catalogue.demo.json');
    catalogue.steps.find((step: { id: string }) => step.id === 'plenum-off').title = 'Another name for the plenum';
    const { code, out } = await price(
      'demo/plenum.estimate.json',
      '--rates',
      file('rates.json', rates),
      '--catalogue',
      file('catalogue.json', catalogue),
    );
    expect(code).toBe(0);
    expect(out).toContain('Another name for the plenum');
    expect(out).toContain('1.2 h of labour, 120.00 USD');
  });

  it('tells how it is used', async () => {
    const { code, out } = await price('--help');
    expect(code).toBe(0);
    expect(out).toContain('npm run price -- ESTIMATE');
  });
});

describe('bad input ends with exit code 1 and says what, where, and how to mend it', () => {
  async function refused(...args: string[]): Promise<string> {
    const { code, out, err } = await price(...args);
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).not.toMatch(/^ +at /m);
    return err;
  }

  it('no estimate, two estimates, an option that does not exist', async () => {
    expect(await refused()).toContain('No estimate was named');
    expect(await refused('demo/van.estimate.json', 'demo/brakes.estimate.json')).toContain('One estimate at a time');
    expect(await refused('--colour', 'demo/van.estimate.json')).toContain("Unknown option '--colour'");
  });

  it('a file that is not there, a folder', async () => {
    const err = await refused('demo/vam.estimate.json');
    expect(err).toContain('demo/vam.estimate.json: error: There is no such file. — Check the path');
    expect(await refused('demo')).toContain('demo: error: This is a folder');
  });

  it('a file that is no JSON, cut off, or empty', async () => {
    expect(await refused(file('words.json', 'hello'))).toMatch(/words\.json: error: The estimate is not JSON/);
    const text = readFileSync(join(root, 'demo/van.estimate.json'), 'utf8');
    expect(await refused(file('cut.json', text.slice(0, 5000)))).toMatch(/cut\.json: error: .* — The file may be cut off/);
    expect(await refused(file('empty.json', ''))).toMatch(/empty\.json: error: .*the text is empty/);
  });

  it('a document of another kind', async () => {
    expect(await refused('rates/card.demo.json')).toMatch(/card\.demo\.json: error format: /);
  });

  it('faults in several documents, all at once, each with its path', async () => {
    const estimate = document('demo/plenum.estimate.json');
    estimate.lines[0].kind = 'wish';
    const rates = document('rates/card.demo.json');
    rates.labourClasses[0].rate = 150;
    const err = await refused(file('wish.json', estimate), '--rates', file('number.json', rates));
    expect(err).toMatch(/wish\.json: error lines\[0\]\.kind: /);
    expect(err).toMatch(/number\.json: error labourClasses\[0\]\.rate: /);
  });

  it('a fault between documents: the rest is priced and printed all the same', async () => {
    const estimate = document('demo/plenum.estimate.json');
    estimate.lines[1].operation = 'no-such-operation';
    const path = file('between.json', estimate);
    const { code, out } = await price(path);
    expect(code).toBe(1);
    expect(out).toMatch(/^l1 .* 300\.00 +proposed$/m);
    expect(out).toMatch(/^l2 .*NOT PRICED$/m);
    expect(out).toMatch(/^error lines\[1\]\.operation: .*no-such-operation/m);
    expect(out).toContain('NOT COMPLETE');
    expect(JSON.parse((await price(path, '--json')).out).complete).toBe(false);
  });
});
