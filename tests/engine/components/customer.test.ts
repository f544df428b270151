import { describe, expect, test } from 'vitest';
import { answerOpen, answerTo, decisionsOf, earlierAnswers } from '../../../components/customer/answers.js';
import { personFaults } from '../../../components/customer/confirm-step.js';
import { consentSentence } from '../../../components/customer/consent.js';
import { CustomerModel, titleOf, unsafeLeft } from '../../../components/customer/customer-view.js';
import { dialled } from '../../../components/customer/head.js';
import { inFull } from '../../../components/customer/full-reader.js';
import { en } from '../../../components/customer/messages/en.js';
import { enAnswer } from '../../../components/customer/messages/en-answer.js';
import { es } from '../../../components/customer/messages/es.js';
import { fr } from '../../../components/customer/messages/fr.js';
import { chooseLanguage, type Language, LANGUAGES, loadMessages, localeOf } from '../../../components/customer/messages/index.js';
import { readerOf } from '../../../components/customer/reader.js';
import { readHash } from '../../../components/customer/open-link.js';
import type { AuthorisationRule, Rates } from '../../../src/documents/rates.js';
import { deferralCosts } from '../../../src/pricing/deferral.js';
import { priceEstimate } from '../../../src/pricing/price-estimate.js';
import { customerCopy } from '../../../src/share/customer-copy.js';
import { demoDocuments, lineIds, SHOP } from '../../browser/customer-page/customer-site.js';

const messages = { en: { ...en, ...enAnswer }, es, fr };
const plain = (text: string): string => text.replace(/[\u00a0\u202f]/g, ' ');
const english = inFull(readerOf('en', 'en-US', 'USD'));

describe('answers', () => {
  test('what is only proposed has none; what was decided before keeps it', () => {
    const lines = (['proposed', 'approved', 'declined', 'deferred'] as const).map((decision) => ({ id: decision, decision }));
    expect(earlierAnswers(lines)).toEqual({ approved: 'yes', declined: 'no', deferred: 'later' });
  });

  test('"all that is open" leaves answers as they are', () => {
    expect(answerOpen({ a: 'no' }, ['b', 'c'], 'yes')).toEqual({ a: 'no', b: 'yes', c: 'yes' });
  });

  test('a line that is called like something every object has is open until it is answered', () => {
    expect(answerTo({ a: 'no' }, 'constructor')).toBeUndefined();
    expect(answerTo(JSON.parse('{"constructor":"no"}') as Record<string, 'no'>, 'constructor')).toBe('no');
  });

  test('they become decisions', () => {
    expect(decisionsOf({ a: 'yes', b: 'no', c: 'later' })).toEqual({ a: 'approved', b: 'declined', c: 'deferred' });
  });
});

describe('the view', () => {
  test('for any answers: total, lines and costs are those of the engine on the shop’s own documents', async () => {
    for (const name of ['van', 'plenum', 'brakes'] as const) {
      const documents = await demoDocuments(name);
      const model = new CustomerModel(customerCopy({ ...documents, shop: SHOP }));
      const ids = lineIds(documents.estimate);
      for (let pick = 0; pick < 25; pick += 1) {
        const answers = Object.fromEntries(ids.map((id, i) => [id, (['yes', 'no', 'later'] as const)[(pick * 7 + i * (pick + 1)) % 3]!]));
        const view = model.view(answers);
        const doing = ids.filter((id) => answers[id] === 'yes');
        const priced = priceEstimate(documents, { only: doing });
        expect(view.priced.totals).toEqual({ ...priced.totals, taxes: view.priced.totals.taxes, discounts: view.priced.totals.discounts });
        const decided = decisionsOf(answers);
        const estimate = {
          ...documents.estimate,
          lines: documents.estimate.lines.map((line) => ({ ...line, decision: decided[line.id] ?? line.decision })),
        };
        const costs = deferralCosts({ ...documents, estimate });
        for (const item of view.lines) expect(item.cost, item.line.id).toEqual(costs[item.line.id]);
      }
    }
  });

  test('the tax of a line by itself is that of an estimate with this line alone, where nothing else hangs on it', async () => {
    const documents = await demoDocuments();
    const model = new CustomerModel(customerCopy(documents));
    const only = Object.fromEntries(lineIds(documents.estimate).map((id) => [id, id === 'l15' ? ('yes' as const) : ('no' as const)]));
    const item = model.view(only).lines.find(({ line }) => line.id === 'l15')!;
    const { tax, total } = priceEstimate(documents, { only: ['l15'] }).totals;
    expect([item.tax, item.total]).toEqual([tax, total]);
  });

  test('unsafe work that is left out is found', async () => {
    const model = new CustomerModel(customerCopy(await demoDocuments()));
    expect(unsafeLeft(model.view({ l9: 'later', l4: 'no' })).map(titleOf)).toEqual([
      'Replace brake pads at a wheel, left front, right front',
    ]);
    expect(unsafeLeft(model.view({ l9: 'yes' }))).toEqual([]);
  });

  test('the same answers are not worked out again', async () => {
    const model = new CustomerModel(customerCopy(await demoDocuments()));
    const answers = {};
    expect(model.view(answers)).toBe(model.view(answers));
  });
});

describe('the sentence that is agreed to', () => {
  async function sentence(rule: AuthorisationRule | null, language: Language = 'en'): Promise<string> {
    const documents = await demoDocuments();
    // One fee line without taxes, so that the total is known.
    const estimate = {
      ...documents.estimate,
      discounts: [],
      lines: [
        { id: 'a', kind: 'fee' as const, title: 'Inspection', amount: '1000.00', taxes: null, decision: 'proposed' as const, note: '' },
      ],
    };
    const rates: Rates = { ...documents.rates, supplies: null, authorisation: rule };
    const model = new CustomerModel(customerCopy({ ...documents, estimate, rates, shop: SHOP }));
    await loadMessages(language);
    return plain(consentSentence(model.view({ a: 'yes' }), inFull(readerOf(language, 'en-US', 'USD'))));
  }
  const rule = (over: Partial<AuthorisationRule>): AuthorisationRule => ({
    percent: null,
    amount: null,
    pick: 'lesser',
    cap: null,
    base: 'total',
    source: '',
    ...over,
  });

  // Amounts for an estimate of 1000.00: published-checks 1.2, columns CO, FL, flat 10%, MA.
  test.each([
    [rule({ percent: '10', amount: '25' }), 'up to $25.00 more', '10% or $25.00, whichever is less'],
    [
      rule({ percent: '10', amount: '10', pick: 'greater', cap: '50' }),
      'up to $50.00 more',
      '10% or $10.00, whichever is more, at most $50.00',
    ],
    [rule({ percent: '10', pick: 'percent' }), 'up to $100.00 more', 'its rule: 10%)'],
    [rule({ amount: '10', pick: 'amount' }), 'up to $10.00 more', 'its rule: $10.00)'],
    [rule({ percent: '10', base: 'before-tax', pick: 'percent' }), 'up to $100.00 (before tax) more', 'its rule: 10%)'],
  ])('%j', async (given, amount, words) => {
    const text = await sentence(given);
    expect(text).toContain(
      'I authorise Quillbrook Motor Works to do the work listed as “To be done” for a total of $1,000.00, tax included.',
    );
    expect(text).toContain(amount);
    expect(text).toContain(words);
  });

  test('without a rule nothing more may be charged', async () => {
    expect(await sentence(null)).toMatch(/For anything above that the shop has to ask me first\.$/);
    expect(await sentence(rule({}))).toMatch(/For anything above that the shop has to ask me first\.$/);
  });

  test('in the customer’s language', async () => {
    expect(await sentence(rule({ percent: '10', amount: '25' }), 'es')).toContain('hasta $25.00 más');
    expect(await sentence(rule({ percent: '10', amount: '25' }), 'fr')).toContain('jusqu’à 25,00 $US de plus');
  });

  test('all declined: nothing is authorised', async () => {
    const documents = await demoDocuments();
    const model = new CustomerModel(customerCopy({ ...documents, shop: SHOP }));
    const no = Object.fromEntries(lineIds(documents.estimate).map((id) => [id, 'no' as const]));
    expect(consentSentence(model.view(no), english)).toBe('I do not authorise Quillbrook Motor Works to do any of this work.');
  });
});

describe('who says so', () => {
  const person = { name: 'Orla', phone: '', email: '', agreed: true };
  test.each([
    [{ ...person, phone: '+1 303 555 0142' }, []],
    [{ ...person, email: 'orla@example.com' }, []],
    [person, ['phone']],
    [{ ...person, name: ' .', phone: '303 555 0142' }, ['name']],
    [{ ...person, phone: '12' }, ['phone']],
    [{ ...person, phone: '303 555 0142', email: 'orla@' }, ['email']],
    [{ ...person, phone: '303 555 0142', agreed: false }, ['agreed']],
  ])('%j: %j', (given, faults) => {
    expect(Object.keys(personFaults(given, messages.en))).toEqual(faults);
  });
});

describe('texts', () => {
  type Tree = { readonly [key: string]: unknown };
  const leaves = (tree: Tree, path = ''): [string, unknown][] =>
    Object.entries(tree).flatMap(([key, value]) =>
      typeof value === 'object' ? leaves(value as Tree, `${path}${key}.`) : [[path + key, value] as [string, unknown]],
    );
  const say = (leaf: unknown): string =>
    typeof leaf === 'function' ? String((leaf as (...given: unknown[]) => unknown)(2, 3, 4, 5)) : String(leaf);

  test('every language says everything, in its own words', () => {
    const english = new Map(leaves(messages.en));
    for (const language of ['es', 'fr'] as const) {
      const own = leaves(messages[language]);
      expect(own.map(([key]) => key).sort()).toEqual([...english.keys()].sort());
      const same = own.filter(([key, leaf]) => say(leaf) === say(english.get(key)) && /[a-z]{4}/i.test(say(leaf))).map(([key]) => key);
      // Words that are the same in both.
      expect(same.filter((key) => !['total', 'subtotal', 'no', 'photo', 'announce', 'kinds.total'].includes(key))).toEqual([]);
      for (const [key, leaf] of own) expect(say(leaf).trim() + (key === 'and' ? ',' : ''), key).not.toBe('');
      for (const [key, leaf] of own)
        if (typeof leaf === 'function') expect(leaf.length, key).toBe((english.get(key) as { length: number }).length);
    }
  });

  // CLDR plural rules: French counts 0 and 1 as one, English and Spanish only 1.
  test('one and many', () => {
    expect([messages.en.open(1), messages.en.open(2)]).toEqual(['1 line still to answer', '2 lines still to answer']);
    expect([messages.es.open(1), messages.es.open(2)]).toEqual(['Falta 1 línea por responder', 'Faltan 2 líneas por responder']);
    expect([messages.fr.open(1), messages.fr.open(2)]).toEqual(['Encore 1 ligne sans réponse', 'Encore 2 lignes sans réponse']);
    for (const language of Object.keys(LANGUAGES) as Language[]) {
      const rules = new Intl.PluralRules(language);
      for (const n of [1, 2, 5, 21]) {
        const isOne = messages[language].fits(n, 'x').replace(String(n), '#') === messages[language].fits(1, 'x').replace('1', '#');
        expect(isOne, `${language} ${n}`).toBe(rules.select(n) === 'one');
      }
    }
  });

  test.each([
    [['fr-CA', 'en'], 'fr'],
    [['', 'de-DE', 'es-419'], 'es'],
    [['constructor', 'xx'], 'en'],
    [[], 'en'],
  ])('%j: %s', (wanted, language) => {
    expect(chooseLanguage(wanted)).toBe(language);
  });

  test.each([
    ['fr', 'en-CA', 'fr-CA'],
    ['es', 'en-US', 'es-US'],
    ['en', 'ja', 'en'],
    ['es', 'zh-Hant-TW', 'es-TW'],
  ] as const)('%s with a shop in %s: %s', (language, shop, locale) => {
    expect(localeOf(language, shop)).toBe(locale);
  });
});

test.each([
  ['+1 303 555 0117', '+13035550117'],
  ['(303) 555-0117', '3035550117'],
  ['ask for Jo', ''],
  ['javascript:1', ''],
])('%s dials "%s"', (phone, digits) => {
  expect(dialled(phone)).toBe(digits);
});

test.each([
  ['#e=abc.def', 'abc.def'],
  ['#x', ''],
  ['', ''],
])('%s holds "%s"', (hash, token) => {
  expect(readHash(hash)).toBe(token);
});
