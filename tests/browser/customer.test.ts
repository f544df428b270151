import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Documents as Priceable } from '../../src/pricing/documents.js';
import { deferralCosts } from '../../src/pricing/deferral.js';
import { priceEstimate } from '../../src/pricing/price-estimate.js';
import { fitToBudget } from '../../src/share/budget.js';
import { customerCopy } from '../../src/share/customer-copy.js';
import { openReply } from '../../src/share/reply-text.js';
import {
  bare,
  CustomerPage,
  demoDocuments,
  type Documents,
  lineIds,
  sealed,
  serveCustomerSite,
  SHOP,
} from './customer-page/customer-site.js';
import { launchChromium } from './support/chromium.js';
import type { StaticServer } from './support/serve.js';

let server: StaticServer;
let browser: Browser;
let documents: Documents;
let link: Awaited<ReturnType<typeof sealed>>;
/** Of the van: what is open or agreed to when the link is opened. */
let doing: string[];

const PHONE = { viewport: { width: 320, height: 640 }, hasTouch: true, isMobile: true };

beforeAll(async () => {
  [server, browser, documents] = await Promise.all([serveCustomerSite(), launchChromium(), demoDocuments()]);
  link = await sealed(documents);
  doing = documents.estimate.lines
    .filter(({ kind, decision }) => kind !== 'note' && (decision === 'proposed' || decision === 'approved'))
    .map(({ id }) => id);
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
});

function totalOf(only: readonly string[], of: Priceable = documents): string {
  return priceEstimate(of, { only }).totals.total;
}

const without = (...left: string[]): string[] => doing.filter((id) => !left.includes(id));

describe('the flow', () => {
  test('by touch at 320 px, from the link alone and offline: two lines declined, checked, confirmed, read by the shop', async () => {
    const customer = await CustomerPage.open(browser, server, PHONE);
    await customer.context.setOffline(true);
    await customer.page.evaluate((token) => (location.hash = `#e=${token}`), link.token);
    await customer.show({ fromHash: true, keys: link.keys });
    const { page } = customer;
    expect(await customer.total()).toBe(totalOf(doing));

    await customer.choice('l3', 'no').tap();
    expect(await customer.total()).toBe(totalOf(without('l3')));
    await customer.choice('l8', 'no').tap();
    expect(await customer.total()).toBe(totalOf(without('l3', 'l8')));
    await customer.button('Yes to all that is open').tap();
    await customer.button('Review').tap();

    // ORS 646A.486(2), published-checks 1.3: declined work crossed out and the cost of the rest shown before authorisation.
    const struck = await page.locator('.confirm .declined s').allInnerTexts();
    expect(struck.filter((_, i) => i % 2 === 0)).toEqual(
      expect.arrayContaining(['Replace a heater hose, feed, return', 'Replace the undertray']),
    );
    expect(bare(await page.locator('.confirm .total td').innerText())).toBe(totalOf(without('l3', 'l8')));

    await customer.fillIn();
    await customer.button('Confirm and answer').tap();
    await page.locator('.done').waitFor();
    const opened = await openReply(await page.locator('#code').inputValue());
    if (!opened.ok) throw new Error(opened.message);
    const { reply } = opened;
    expect(reply).toMatchObject({
      estimate: 'demo-van',
      revision: 1,
      hash: link.hash,
      name: 'Orla Finchley-Dane',
      contact: { kind: 'phone', value: '+1 303 555 0142' },
      total: totalOf(without('l3', 'l8')),
      currency: 'USD',
      locale: 'en-US',
    });
    expect(Object.keys(reply.decisions).sort()).toEqual(lineIds(documents.estimate).sort());
    expect(reply.decisions).toMatchObject({
      l1: 'approved',
      l2: 'approved',
      l3: 'declined',
      l8: 'declined',
      l11: 'deferred',
      l12: 'declined',
    });
    expect(Math.abs(Date.parse(reply.at) - Date.now())).toBeLessThan(60_000);
    expect(await customer.sidewaysRoom()).toBe(0);
    await customer.done();
  });

  test('by keyboard alone', async () => {
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token: link.token, keys: link.keys });
    const { page } = customer;
    const focused = () =>
      page.evaluate(() => {
        let element = document.activeElement;
        while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
        return element instanceof HTMLInputElement
          ? `${element.name || element.id} ${element.type === 'radio' ? element.value : ''}`.trim()
          : (element?.textContent?.trim() ?? '');
      });
    const tabTo = async (wanted: string): Promise<void> => {
      for (let i = 0; i < 150; i += 1) {
        if ((await focused()).startsWith(wanted)) return;
        await page.keyboard.press('Tab');
      }
      throw new Error(`Tab does not come to "${wanted}"; it stands at "${await focused()}".`);
    };
    await tabTo('answer-l9');
    await page.keyboard.press('ArrowRight');
    expect(await focused()).toBe('answer-l9 no');
    await page.keyboard.press('ArrowRight');
    expect(await focused()).toBe('answer-l9 later');
    await tabTo('Yes to all that is open');
    await page.keyboard.press('Enter');
    await tabTo('Review');
    await page.keyboard.press('Enter');
    expect(await focused()).toBe('Check your answer');
    await tabTo('name');
    await page.keyboard.type('Orla');
    await tabTo('email');
    await page.keyboard.type('orla@example.com');
    await tabTo('agreed');
    await page.keyboard.press('Space');
    await tabTo('Confirm and answer');
    await page.keyboard.press('Enter');
    await page.locator('.done').waitFor();
    expect(await focused()).toBe('Your answer');
    const [detail] = await page.evaluate(() => window.customer.replies());
    expect(detail!.reply.decisions['l9']).toBe('deferred');
    expect(detail!.reply.contact).toEqual({ kind: 'email', value: 'orla@example.com' });
    await customer.done();
  });

  test('silence is no consent: what is proposed begins without an answer, and Review leads to it', async () => {
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token: link.token, keys: link.keys });
    const { page } = customer;
    const proposed = documents.estimate.lines.filter(({ kind, decision }) => kind !== 'note' && decision === 'proposed');
    expect(await page.locator('.answer input:checked').count()).toBe(lineIds(documents.estimate).length - proposed.length);
    await customer.button('Review').click();
    await page.locator('.bar .fault').waitFor();
    expect(await page.locator('.confirm').count()).toBe(0);
    const at = await page.evaluate(() => (document.querySelector('baysheet-customer')!.shadowRoot!.activeElement as HTMLInputElement).name);
    expect(at).toBe(`answer-${proposed[0]!.id}`);
    await customer.done();
  });

  test('every field is checked, and says in words what it needs', async () => {
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token: link.token, keys: link.keys });
    await customer.answerOpen();
    await customer.review();
    await customer.confirm();
    const { page } = customer;
    expect(await page.locator('form .fault').allInnerTexts()).toEqual([
      'Please write your name.',
      'Please give a phone number or an e-mail address, so that the shop can reach you.',
      'Please tick the sentence, or change your answers.',
    ]);
    expect(await page.evaluate(() => document.querySelector('baysheet-customer')!.shadowRoot!.activeElement!.id)).toBe('name');
    await page.getByLabel('Your name').fill('Orla');
    await page.getByLabel('E-mail', { exact: true }).fill('orla@');
    expect(await page.locator('form .fault').allInnerTexts()).toContain(
      'This e-mail address is not complete. It should read like name@example.com.',
    );
    expect(await page.evaluate(() => window.customer.replies())).toEqual([]);
    await customer.done();
  });

  test('an answer can be changed after it was checked; then the tick is asked for again', async () => {
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token: link.token, keys: link.keys });
    await customer.answerOpen();
    await customer.review();
    await customer.fillIn();
    const { page } = customer;
    const before = await page.locator('.agree').innerText();
    await customer.button('Change my answers').click();
    await customer.choice('l4', 'later').click();
    await customer.review();
    expect(await page.getByRole('checkbox').isChecked()).toBe(false);
    expect(await page.getByLabel('Your name').inputValue()).toBe('Orla Finchley-Dane');
    const after = await page.locator('.agree').innerText();
    expect(after).not.toBe(before);
    expect(after).toContain('$' + totalOf(without('l4')).replace(/\B(?=(\d{3})+\.)/, ','));
    await customer.done();
  });
});

describe('what a line costs', () => {
  test('labour, parts and tax are those of the engine; now, later and the steps that are paid twice too', async () => {
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token: link.token, keys: link.keys });
    const { page } = customer;
    const priced = priceEstimate(documents, { only: doing });
    const costs = deferralCosts(documents);
    for (const id of doing) {
      const line = priced.lines.find((each) => each.id === id)!;
      const card = page.locator(`#line-${id}`);
      const rows = await card.locator('.items > li').allInnerTexts();
      const labour = rows.find((row) => row.startsWith('Labour'));
      if (labour !== undefined) expect(bare(labour.split('\n')[1]!), id).toBe(line.labour);
      const cost = costs[id]!;
      if (/^0*\.?0*$/.test(cost.extra)) expect(await card.locator('.when').count(), id).toBe(0);
      else expect((await card.locator('.when dd.figure').allInnerTexts()).map(bare), id).toEqual([cost.now, cost.later]);
    }
    // The pump is behind the undertray and under the coolant, which other lines need too.
    const why = await page.locator('#line-l4 .why').innerText();
    const shared = priced.overlap.steps.filter(({ lines }) => lines.includes('l4') && lines.length > 1).map(({ title }) => title);
    expect(shared.length).toBeGreaterThan(1);
    for (const title of shared) expect(why).toContain(title);
    await customer.done();
  });

  // design.md section 4, worked check: declining the O-rings leaves 300.00, not 120.00.
  test('what was shared with a declined line comes back to the others', async () => {
    const plenum = await demoDocuments('plenum');
    const { token, keys } = await sealed(plenum);
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token, keys });
    const [gasket, rings] = plenum.estimate.lines as unknown as [{ id: string }, { id: string }];
    const labour = async () => bare((await customer.page.locator(`#line-${gasket.id} .items > li`).first().innerText()).split('\n')[1]!);
    const together = priceEstimate(plenum).lines.find(({ id }) => id === gasket.id)!.labour;
    const alone = priceEstimate(plenum, { only: [gasket.id] }).lines.find(({ id }) => id === gasket.id)!.labour;
    expect(Number(alone)).toBeGreaterThan(Number(together));
    expect(await labour()).toBe(together);
    await customer.choice(rings.id, 'no').click();
    expect(await labour()).toBe(alone);
    await customer.done();
  });

  test('condition and number of every part, hours and rate of all labour', async () => {
    const customer = await CustomerPage.open(browser, server);
    const used = structuredClone(documents);
    used.catalogue.parts.find(
      ({ id }) => used.catalogue.operations.find((each) => each.id === 'water-pump')!.parts[0]!.part === id,
    )!.condition = 'rebuilt';
    const { token, keys } = await sealed(used);
    await customer.show({ token, keys });
    const shown = await customer.page.locator('#line-l4 .items').innerText();
    expect(shown).toContain('rebuilt');
    for (const { part } of priceEstimate(used).charges.filter(({ line, kind }) => line === 'l4' && kind === 'part'))
      expect(shown).toContain(part!.number);
    expect(shown).toMatch(/2\.7\sh × \$150\.00/);
    await customer.done();
  });
});

describe('fit to my budget', () => {
  test('proposes what the engine finds; taken, it becomes the answers; unsafe work that is left out is named', async () => {
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token: link.token, keys: link.keys });
    const { page } = customer;
    const fit = fitToBudget(customerCopy(documents), '200');
    expect(fit.unsafeLeft).toEqual(['l9']);
    await page.getByLabel(/The most I can spend/).fill('200');
    await customer.button('Show what fits').click();
    const proposal = page.locator('.proposal');
    expect(await proposal.innerText()).toContain('This would be left out although it is not safe:');
    expect(await proposal.innerText()).toContain('Replace brake pads');
    expect(await proposal.innerText()).toContain('Do not drive the vehicle until the shop tells you that it is safe.');
    await customer.button('Answer like this').click();
    expect(await customer.total()).toBe(fit.total);
    const yes = await page
      .locator('.answer input[value=yes]:checked')
      .evaluateAll((inputs) => inputs.map((input) => (input as HTMLInputElement).name.replace('answer-', '')));
    expect(yes.sort()).toEqual([...fit.chosen].sort());
    await customer.done();
  });

  test('left, it changes nothing; what is no amount says so', async () => {
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token: link.token, keys: link.keys, lang: 'fr' });
    const { page } = customer;
    const before = await customer.page.locator('.bar .sum').innerText();
    await page.locator('#ceiling').fill('beaucoup');
    await customer.button('Voir ce qui tient').click();
    expect(await page.locator('#ceiling-fault').innerText()).toContain('500,00');
    await page.locator('#ceiling').fill('1 200,50');
    await customer.button('Voir ce qui tient').click();
    await customer.button('Laisser mes réponses comme elles sont').click();
    expect(await page.locator('.proposal').count()).toBe(0);
    expect(await customer.page.locator('.bar .sum').innerText()).toBe(before);
    await customer.done();
  });
});

describe('the answer goes', () => {
  async function confirmed(properties: Record<string, unknown> = {}, options = {}): Promise<CustomerPage> {
    const customer = await CustomerPage.open(browser, server, options);
    await customer.show({ token: link.token, keys: link.keys, ...properties });
    await customer.answerOpen();
    await customer.review();
    await customer.fillIn();
    return customer;
  }

  test('by event, where the page takes it', async () => {
    const customer = await confirmed();
    await customer.page.evaluate(() => window.customer.take());
    await customer.confirm();
    expect(await customer.page.locator('.done [role=status]').first().innerText()).toBe('Your answer has been handed to the shop.');
    expect(await customer.page.locator('#code').count()).toBe(0);
    const [detail] = await customer.page.evaluate(() => window.customer.replies());
    expect(await openReply(detail!.text)).toEqual({ ok: true, reply: detail!.reply });
    await customer.done();
  });

  test('by copy, text message, mail and QR code', async () => {
    const customer = await confirmed({}, { permissions: ['clipboard-read', 'clipboard-write'] });
    await customer.confirm();
    const { page } = customer;
    const text = await page.locator('#code').inputValue();
    await customer.button('Copy').click();
    await page.getByText('Copied.').waitFor();
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(text);
    const sms = new URL((await page.getByRole('link', { name: 'Text message' }).getAttribute('href'))!);
    expect(sms.pathname).toBe('+13035550117');
    const mail = new URL((await page.locator('.ways').getByRole('link', { name: 'E-mail' }).getAttribute('href'))!);
    expect(mail.pathname).toBe('desk@example.com');
    for (const message of [sms.searchParams.get('body')!, mail.searchParams.get('body')!])
      expect(await openReply(message)).toMatchObject({ ok: true });
    await customer.button('Show as QR code').click();
    await page.getByRole('img', { name: 'QR code with your answer' }).waitFor();
    expect(await customer.axe()).toEqual([]);
    await customer.done();
  });

  test('by POST; a server that cannot be reached loses nothing', async () => {
    const posted: string[] = [];
    let status = 503;
    const shop = createServer((request, response) => {
      let body = '';
      request.on('data', (piece) => (body += piece));
      request.on('end', () => {
        if (request.method === 'POST') posted.push(body);
        response.writeHead(status, { 'access-control-allow-origin': '*', 'access-control-allow-headers': 'content-type' }).end();
      });
    });
    await new Promise<void>((resolve) => shop.listen(0, '127.0.0.1', resolve));
    // Same origin, as the policy wants: the page's own server passes the answer on.
    const customer = await confirmed({ replyTo: `${server.url}/answers` });
    await customer.page.route('**/answers', async (route) => {
      const response = await fetch(`http://127.0.0.1:${(shop.address() as AddressInfo).port}/`, {
        method: 'POST',
        body: route.request().postData()!,
      });
      await route.fulfill({ status: response.status });
    });
    await customer.confirm();
    await customer.page.getByText('could not be reached').waitFor();
    expect(await customer.page.locator('#code').inputValue()).toMatch(/^baysheet1\./);
    status = 204;
    await customer.button('Try again').click();
    await customer.page.getByText('has been handed to the shop').waitFor();
    const { reply, text } = JSON.parse(posted[1]!) as { reply: unknown; text: string };
    expect(await openReply(text)).toEqual({ ok: true, reply });
    shop.close();
    await customer.done([/503/]);
  });
});

describe('links that are not shown', () => {
  const flipped = (token: string, at: number): string => token.slice(0, at) + (token[at] === 'A' ? 'B' : 'A') + token.slice(at + 1);

  test.each([
    [
      'one letter changed',
      (token: string) => flipped(token, token.length - 200),
      'This link was not made by this shop, or somebody has changed it on its way.',
    ],
    ['cut off', (token: string) => token.slice(0, -30), 'The link is damaged or not complete.'],
    ['far too long', (token: string) => token + 'A'.repeat(40_000), 'The link is far too long to be an estimate.'],
  ])('%s', async (_, spoil, words) => {
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token: spoil(link.token), keys: link.keys, shopPhone: SHOP.phone });
    const shown = await customer.page.locator('.refused').innerText();
    expect(shown).toContain(words);
    expect(shown).toContain('Call +1 303 555 0117');
    expect(await customer.page.locator('.line').count()).toBe(0);
    expect(await customer.axe()).toEqual([]);
    await customer.done();
  });

  test('signed by somebody else; in the reader’s language', async () => {
    const other = await sealed(documents);
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token: link.token, keys: other.keys, lang: 'es' });
    expect(await customer.page.locator('.refused').innerText()).toContain('Este enlace no lo hizo este taller');
    const [problem] = await customer.page.evaluate(() => window.customer.heard);
    expect(problem).toMatchObject({
      type: 'baysheet-problem',
      detail: { source: 'link', problems: [{ code: 'signature', message: expect.stringContaining('no lo hizo este taller') }] },
    });
    await customer.done();
  });

  test('a page without keys says so', async () => {
    const customer = await CustomerPage.open(browser, server);
    await customer.show({ token: link.token, keys: '[]' });
    expect(await customer.page.locator('.refused').innerText()).toContain('could not load what it needs');
    await customer.done();
  });
});

describe('another link', () => {
  test('in the same page it begins afresh, without the answers to the first', async () => {
    const customer = await CustomerPage.open(browser, server);
    const plenum = await sealed(await demoDocuments('plenum'));
    await customer.page.evaluate((token) => (location.hash = `#e=${token}`), link.token);
    await customer.show({ fromHash: true, keys: link.keys });
    await customer.choice('l4', 'no').click();
    await customer.page.evaluate(
      ([token, keys]) => {
        document.querySelector('baysheet-customer')!.keys = keys;
        location.hash = `#e=${token}`;
      },
      [plenum.token, plenum.keys] as const,
    );
    await customer.page
      .locator('.line-title', { hasText: /gasket|plenum/i })
      .first()
      .waitFor();
    expect(await customer.page.locator('.left').count()).toBe(0);
    await customer.done();
  });
});
