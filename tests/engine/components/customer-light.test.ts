/** The light libraries of the customer's element against those that they stand in for, and the size of what a phone loads. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { Decimal as Shared } from 'decimal.js';
import fc from 'fast-check';
import { compactVerify, importJWK } from 'jose';
import ts from 'typescript';
import { build, type Rolldown } from 'vite';
import { describe, expect, test } from 'vitest';
import { encode as fullQr } from 'uqr';
import { everythingAtOnce, lightLibraries } from '../../../components/customer/light/alias.js';
import { compactCss, compactHtml, compactLiterals } from '../../../components/compact-literals.js';
import { CURRENCY_DIGITS as lightDigits } from '../../../components/customer/light/light-currency-digits.js';
import { Decimal as Light } from '../../../components/customer/light/light-decimal.js';
import { compactVerify as lightVerify, importJWK as lightImport } from '../../../components/customer/light/light-jose.js';
import { lightPlugins } from '../../../components/customer/light/plugins.js';
import { encode as lightQr } from '../../../components/customer/light/light-qr.js';
import { INNER_NAMES } from '../../../components/customer/light/inner-names.js';
import { checkReply as lightCheck } from '../../../components/customer/light/light-reply.js';
import { sealReply as lightSeal } from '../../../components/customer/light/light-reply-text.js';
import { CURRENCY_DIGITS } from '../../../src/number/currency-digits.js';
import { priceEstimate } from '../../../src/pricing/price-estimate.js';
import { fitToBudget } from '../../../src/share/budget.js';
import { customerCopy } from '../../../src/share/customer-copy.js';
import { signCompact } from '../../../src/share/jws.js';
import type { Reply } from '../../../src/share/reply.js';
import { openReply, sealReply } from '../../../src/share/reply-text.js';
import { shopSchema } from '../../../src/share/shop.js';
import { demoDocuments } from '../../browser/customer-page/customer-site.js';
import { reach, readImports } from '../../support/imports.js';

const root = fileURLToPath(new URL('../../../', import.meta.url));

/** As src/number/decimal.ts sets it up. */
const Full = Shared.clone({ defaults: true, precision: 120, rounding: Shared.ROUND_HALF_UP, toExpNeg: -9e15, toExpPos: 9e15 });

const figure = fc
  .tuple(fc.boolean(), fc.bigInt({ min: 0n, max: 10n ** 22n }), fc.integer({ min: 0, max: 10 }))
  .map(([negative, units, places]) => {
    const text = String(units).padStart(places + 1, '0');
    const at = text.length - places;
    return `${negative && units > 0n ? '-' : ''}${text.slice(0, at)}${places > 0 ? `.${text.slice(at)}` : ''}`;
  });

describe('decimals', () => {
  test('every operation gives the digits of decimal.js', () => {
    fc.assert(
      fc.property(figure, figure, fc.integer({ min: 0, max: 6 }), (a, b, places) => {
        const [fa, fb, la, lb] = [new Full(a), new Full(b), new Light(a), new Light(b)];
        expect(la.toFixed()).toBe(fa.toFixed());
        for (const name of ['plus', 'minus', 'times'] as const) expect(la[name](lb).toFixed(), name).toBe(fa[name](fb).toFixed());
        for (const name of ['cmp', 'eq', 'gt', 'gte', 'lt', 'lte'] as const) expect(la[name](lb), name).toBe(fa[name](fb));
        for (const name of ['neg', 'trunc', 'floor'] as const) expect(la[name]().toFixed(), name).toBe(fa[name]().toFixed());
        if (!fb.isZero()) for (const name of ['div', 'mod'] as const) expect(la[name](lb).toFixed(), name).toBe(fa[name](fb).toFixed());
        for (const mode of [4, 5, 6] as const) {
          expect(la.toDecimalPlaces(places, mode).toFixed(places), `mode ${mode}`).toBe(fa.toDecimalPlaces(places, mode).toFixed(places));
        }
        expect([la.isZero(), la.decimalPlaces()]).toEqual([fa.isZero(), fa.decimalPlaces()]);
      }),
      { numRuns: 3000 },
    );
  });

  // Ties, where the modes differ: half of the last place, both signs.
  test.each(['0.5', '1.5', '-0.5', '-1.5', '2.5', '0.25', '0.444675'])('%s is rounded alike', (text) => {
    for (const mode of [4, 5, 6] as const)
      for (const places of [0, 1, 2]) {
        expect(new Light(text).toDecimalPlaces(places, mode).toFixed(places)).toBe(
          new Full(text)
            .toDecimalPlaces(places, mode)
            .toFixed(places)
            .replace(/^-(0(\.0+)?)$/, '$1'),
        );
      }
  });

  test.each(['', 'x', '1e3', '1.', '.5', '1,5', ' 1'])('"%s" is no decimal', (text) => {
    expect(() => new Light(text)).toThrow();
  });

  test('it has every method that the engine calls', () => {
    const config = ts.getParsedCommandLineOfConfigFile(
      `${root}tsconfig.engine.json`,
      {},
      { ...ts.sys, onUnRecoverableConfigFileDiagnostic: () => undefined },
    )!;
    const program = ts.createProgram(config.fileNames, config.options);
    const checker = program.getTypeChecker();
    // Sums that are typed with "=" are for the shop's sheet.
    const loaded = reach(readImports(root, ['src', 'components']), 'components/customer/define.ts');
    const called = new Set<string>();
    for (const source of program.getSourceFiles()) {
      const name = source.fileName.replace(root, '');
      if (!loaded.has(name) || name === 'src/number/sum.ts' || name === 'src/documents/rates-references.ts') continue;
      const visit = (node: ts.Node): void => {
        if (ts.isPropertyAccessExpression(node) && checker.getTypeAtLocation(node.expression).symbol?.name === 'Decimal')
          called.add(node.name.text);
        ts.forEachChild(node, visit);
      };
      visit(source);
    }
    expect(called.size).toBeGreaterThan(12);
    called.delete('prototype');
    // Only the reading of a sum that was typed asks for it, which a customer cannot.
    called.delete('toSignificantDigits');
    expect([...called].filter((name) => !(name in Light.prototype) && !(name in Light))).toEqual([]);
  });

  test('whole estimates come to the same, and so do budgets', async () => {
    const output = await bundle(`${root}tests/engine/components/customer-engine-entry.ts`);
    const light = (await import(
      `data:text/javascript;base64,${Buffer.from(output).toString('base64')}`
    )) as typeof import('./customer-engine-entry.js');
    expect(output).not.toContain('1234567890123456789'); // nothing of decimal.js's constants
    for (const name of ['van', 'plenum', 'brakes'] as const) {
      const copy = customerCopy(await demoDocuments(name));
      expect(light.priceEstimate(copy)).toEqual(priceEstimate(copy));
      const pricer = new light.Pricer(light.indexCatalogue(copy.catalogue), light.indexRates(copy.rates));
      const ids = copy.estimate.lines.map(({ id }) => id);
      for (let pick = 1; pick < 40; pick += 1) {
        const only = ids.filter((_, i) => (pick * 2654435761) & (1 << (i % 31)));
        const priced = priceEstimate(copy, { only });
        expect(light.priceEstimate(copy, { only })).toEqual(priced);
        // One that has priced other choices before.
        expect(pricer.price(copy.estimate, new Set(only))).toEqual(priced);
      }
      for (const ceiling of ['0', '150', '500.55', '100000']) expect(light.fitToBudget(copy, ceiling)).toEqual(fitToBudget(copy, ceiling));
    }
  });
});

describe('signatures', () => {
  test('a good one is accepted, a changed one is not: jose and the light functions agree', async () => {
    const pair = await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, true, ['sign', 'verify']);
    const jwk = await crypto.subtle.exportKey('jwk', pair.publicKey);
    const [key, light] = [await importJWK(jwk, 'ES256'), await lightImport(jwk)];
    const agree = async (token: string): Promise<boolean> => {
      const full = await compactVerify(token, key, { algorithms: ['ES256'] }).then(
        ({ payload }) => [...payload],
        () => null,
      );
      const own = await lightVerify(token, light).then(
        ({ payload }) => [...payload],
        () => null,
      );
      expect(own).toEqual(full);
      return own !== null;
    };
    for (let i = 0; i < 40; i += 1) {
      const payload = crypto.getRandomValues(new Uint8Array(1 + i * 7));
      const token = await signCompact(payload, { kid: 'shop', privateKey: pair.privateKey });
      expect(await agree(token)).toBe(true);
      const at = token.indexOf('.') + 1 + (i % 3);
      expect(await agree(token.slice(0, at) + (token[at] === 'A' ? 'B' : 'A') + token.slice(at + 1))).toBe(false);
    }
    await expect(lightImport({ ...jwk, x: jwk.y!, y: jwk.x! })).rejects.toThrow();
  });
});

describe('QR codes', () => {
  // ISO/IEC 18004, by way of another implementation: squares of every version and of lengths in between, for all eight masks.
  test('the squares are those of uqr with the same mask', () => {
    const masks = new Set<number>();
    const sizes = new Set<number>();
    for (let length = 11; length <= 1171; length += 11) {
      const text = `baysheet1.${'aQ9-_xZ'.repeat(170)}`.slice(0, length - 4) + String(length).padStart(4, '.');
      const { data, size, maskPattern } = lightQr(text, { border: 4 });
      expect({ data, size }, `${length} characters`).toMatchObject({ data: fullQr(text, { ecc: 'L', border: 4, maskPattern }).data, size });
      masks.add(maskPattern);
      sizes.add(size);
    }
    expect(masks.size).toBe(8);
    expect(sizes.size).toBe(24);
  });

  test('longer than it can draw is refused; letters beyond ASCII are bytes', () => {
    expect(() => lightQr('x'.repeat(1172), { border: 4 })).toThrow('too long');
    const { data, maskPattern } = lightQr('añ€😀', { border: 0 });
    expect(data).toEqual(fullQr('añ€😀', { ecc: 'L', border: 0, maskPattern }).data);
  });
});

test('every currency of ISO 4217 has its digits', () => {
  for (const [code, digits] of CURRENCY_DIGITS) expect(lightDigits.get(code) ?? 2, code).toBe(digits);
  expect([...lightDigits.keys()].filter((code) => !CURRENCY_DIGITS.has(code))).toEqual([]);
});

test('an answer to an estimate without a name, or with a hash that is none, does not leave the page', () => {
  const hash = 'A'.repeat(43);
  expect(lightCheck({ estimate: 'e-1', hash })).toMatchObject({ ok: true });
  expect(lightCheck({ estimate: '', hash })).toEqual({ ok: false, path: 'estimate' });
  expect(lightCheck({ estimate: 'e-1', hash: 'mine' })).toEqual({ ok: false, path: 'hash' });
});

const anAnswer: Reply = {
  estimate: 'e-1',
  revision: 1,
  hash: 'A'.repeat(43),
  at: '2026-03-02T16:20:00Z',
  name: 'Orla Finchley-Dane',
  contact: { kind: 'phone', value: '+1 303 555 0142' },
  decisions: { l1: 'approved', l2: 'declined', l3: 'deferred', l4: 'approved' },
  total: '1234.56',
  currency: 'USD',
  locale: 'en-US',
  consent: 'I authorise the work that is marked yes.',
};

test.each<Partial<Reply>>([
  {},
  { revision: 12 },
  { contact: { kind: 'email', value: 'orla@example.com' } },
  { decisions: { l9: 'deferred', l1: 'deferred' } },
  { name: 'Zoë \\ Ñandú', consent: 'Ja.\nNein.' },
])('an answer is written as the engine writes it: %j', async (change) => {
  const reply = { ...anAnswer, ...change };
  const text = await lightSeal(reply);
  expect(text).toBe(await sealReply(reply));
  expect(await openReply(text)).toEqual({ ok: true, reply });
});

describe('names that are made short', () => {
  /** Every key and every text in a tree. */
  const words = (value: unknown): string[] =>
    typeof value === 'string'
      ? [value]
      : typeof value === 'object' && value !== null
        ? Object.entries(value).flatMap(([key, each]) => [key, ...words(each)])
        : [];
  const among = (names: Iterable<string>): string[] => {
    const known = new Set(names);
    return INNER_NAMES.filter((name) => known.has(name));
  };
  /** Names of members in declarations of types. */
  const members = (path: string): string[] =>
    Array.from(readFileSync(path, 'utf8').matchAll(/^\s+(?:(?:readonly|static|get|set|protected) )*(\w+)[?(:<]/gm), ([, name]) => name!);

  test('are in no document, shop, key or answer', () => {
    const schemas = readdirSync(`${root}rates/schema`).map(
      (name) => JSON.parse(readFileSync(`${root}rates/schema/${name}`, 'utf8')) as unknown,
    );
    const key = ['kty', 'crv', 'x', 'y', 'kid', 'alg', 'keys'];
    expect(among([...words(schemas), ...words(anAnswer), ...Object.keys(shopSchema.entries), ...key, 'copy', 'shop', 'reply'])).toEqual([]);
  });

  test('are no names of lit, nor of the element for those who use it', () => {
    const lit = ['@lit/reactive-element/reactive-element', '@lit/reactive-element/css-tag', 'lit-element/lit-element', 'lit-html/lit-html'];
    expect(among(lit.flatMap((name) => members(`${root}node_modules/${name}.d.ts`)))).toEqual([]);
    const own = ['token', 'fromHash', 'keys', 'keysSrc', 'replyTo', 'shopPhone', 'hash', 'lang', 'copy', 'version'];
    expect(among([...own, 'text', 'source', 'problems', 'severity', 'code', 'path', 'message'])).toEqual([]);
  });

  test('are asked for by no text', async () => {
    for (const { code } of await built(`${root}components/customer/define.ts`, false, [compactLiterals()])) {
      const texts = new Set<string>();
      const visit = (node: ts.Node): void => {
        if (ts.isStringLiteralLike(node)) texts.add(node.text);
        ts.forEachChild(node, visit);
      };
      visit(ts.createSourceFile('page.js', code, ts.ScriptTarget.ES2022));
      expect(among(texts)).toEqual([]);
    }
  });

  test('are none of the browser’s', () => {
    const libraries = ['dom', 'es5', 'es2015.core', 'es2015.collection', 'es2020.intl', 'es2020.bigint'];
    expect(among(libraries.flatMap((name) => members(`${root}node_modules/typescript/lib/lib.${name}.d.ts`)))).toEqual([]);
  });
});

describe('templates', () => {
  test('white space and comments go, what counts stays', () => {
    expect(compactHtml('<p>\n    a ${\n')).toBe('<p> a ${ ');
    expect(compactHtml('<p class="a" part="b-c" title="d e" id="${')).toBe('<p class=a part=b-c title="d e" id="${');
    expect(compactHtml('<input name="a"/><input name="a" />')).toBe('<input name="a"/><input name=a />');
    expect(
      compactCss(
        '.a > .b:hover :focus,\n b {\n  /* why */\n  margin: 0 0.5rem !important;\n  color: #ffffff;\n  width: calc(100% + 10.0px);\n}\n',
      ),
    ).toBe('.a>.b:hover :focus,b{margin:0 .5rem!important;color:#fff;width:calc(100% + 10.0px)}');
    expect(compactCss("@container (inline-size >= 30rem) { [aria-pressed='true'] { top: 1px; } }")).toBe(
      '@container (inline-size >= 30rem){[aria-pressed=true]{top:1px}}',
    );
  });
});

describe('what a phone loads', () => {
  test('never the grid library, nor anything of its folder', () => {
    const loaded = [...reach(readImports(root, ['src', 'components']), 'components/customer/define.ts').keys()];
    expect(loaded.filter((name) => name === 'handsontable' || name.startsWith('components/grid/'))).toEqual([]);
    expect(loaded).toContain('src/pricing/pricer.ts');
  });

  test('what the estimate is shown with, and everything, stay within their budgets', async () => {
    const size = (chunk: Rolldown.OutputChunk): number => gzipSync(chunk.code, { level: 9 }).length;
    const inOne = size((await built(`${root}components/customer/define.ts`, true))[0]!);
    const several = await built(`${root}components/customer/define.ts`, false);
    const first = several
      .filter(({ isEntry }) => isEntry)
      .map(size)
      .reduce((a, b) => a + b, 0);
    const parts = several.map((chunk) => `${chunk.name} ${(size(chunk) / 1000).toFixed(1)}`).join(', ');
    console.log(`baysheet/customer, min+gzip: all in one file ${(inOne / 1000).toFixed(1)} KB; in several: ${parts} KB`);
    // Nothing else is waited for.
    expect(several.filter(({ isEntry }) => isEntry).flatMap(({ imports }) => imports)).toEqual([]);
    expect(several.map(({ name }) => name).sort()).toEqual(['define', 'es', 'fr', 'rest']);
    expect(inOne).toBeLessThan(BUDGET.inOne);
    expect(first).toBeLessThan(BUDGET.first);
  });
});

/**
 * Bytes after minifying and gzip. `first` is what a phone waits for before the estimate shows: lit, engine, verification,
 * English. `inOne` is all there is: the budget, the answer, the QR code, Spanish and French too. The aim for everything
 * was 35 KB, which this misses.
 */
const BUDGET = { first: 35_000, inOne: 52_000 };

/** With the names of members as they are, to be looked into from outside. */
async function bundle(input: string): Promise<string> {
  return (await built(input, true, [compactLiterals()]))[0]!.code;
}

async function built(input: string, inOneFile: boolean, plugins = lightPlugins()): Promise<Rolldown.OutputChunk[]> {
  // Test runners set another one, with which lit comes in its development version.
  process.env['NODE_ENV'] = 'production';
  const { output } = (await build({
    configFile: false,
    root,
    logLevel: 'error',
    resolve: { alias: [...lightLibraries, ...(inOneFile ? everythingAtOnce : [])] },
    plugins,
    build: {
      write: false,
      target: 'es2022',
      modulePreload: false,
      ...(inOneFile ? {} : { lib: { entry: input, formats: ['es'] } }),
      rolldownOptions: {
        ...(inOneFile ? { input } : {}),
        preserveEntrySignatures: inOneFile ? 'strict' : 'allow-extension',
        output: { format: 'es', minify: true, comments: { annotation: false }, ...(inOneFile ? { codeSplitting: false } : {}) },
      },
    },
  }).then((result) => (Array.isArray(result) ? result[0] : result))) as Rolldown.RolldownOutput;
  return output.filter((file) => file.type === 'chunk');
}
