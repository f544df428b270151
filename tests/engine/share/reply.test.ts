/** The customer's answer: written, sent through messages and mails, read, or refused in words. */
import { deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { encodeBase64url } from '../../../src/share/base64url.js';
import { crc32 } from '../../../src/share/crc32.js';
import type { Reply } from '../../../src/share/reply.js';
import { openReply, sealReply } from '../../../src/share/reply-text.js';

const reply: Reply = {
  estimate: 'demo-van',
  revision: 2,
  hash: 'q0aVwYbdQ0aVwYbdq0aVwYbdQ0aVwYbdq0aVwYbdQ0A',
  at: '2026-03-02T16:20:00+01:00',
  name: 'Orla Finchley-Dane',
  contact: { kind: 'phone', value: '+1 303 555 0142' },
  decisions: Object.fromEntries(
    Array.from({ length: 12 }, (_, i) => [`l${i + 1}`, (['approved', 'declined', 'deferred'] as const)[i % 3]!]),
  ),
  total: '1234.56',
  currency: 'USD',
  locale: 'en-US',
  consent: 'I authorise the work that is marked yes, for a total of $1,234.56 with tax.',
};

/** An answer of these slots with a right checksum, however odd. */
function forged(row: string): string {
  const body = encodeBase64url(deflateRawSync(Buffer.from(row)));
  const crc = crc32(Buffer.from(body));
  return `baysheet1.${body}.${encodeBase64url(Uint8Array.of(crc >>> 24, crc >>> 16, crc >>> 8, crc))}`;
}

const slots = ['demo-van', '2', reply.hash, reply.at, 'Orla', '1', '+1 303', 'l1,l2', 'l3', '', '1234.56', 'USD', 'en-US', 'I agree.'];
const withSlot = (i: number, value: string): string => forged(slots.with(i, value).join('\n'));

async function codeOf(text: string): Promise<string> {
  const opened = await openReply(text);
  return opened.ok ? 'ok' : opened.code;
}

describe('sealReply and openReply', () => {
  it('give back the answer', async () => {
    expect(await openReply(await sealReply(reply))).toEqual({ ok: true, reply });
    const odd: Reply = {
      ...reply,
      name: 'Žofia O’Neill – 山田',
      contact: { kind: '', value: '' },
      decisions: { __proto__x: 'approved', ['__proto__']: 'declined' },
      consent: 'Yes.\nAll of it \\ and more.',
    };
    expect(await openReply(await sealReply(odd))).toEqual({ ok: true, reply: odd });
    expect(({} as Record<string, unknown>)['declined']).toBeUndefined();
  });

  it('keep an answer to a dozen lines short enough for a QR code', async () => {
    expect((await sealReply(reply)).length).toBeLessThan(450);
  });

  it('find the answer in a message, with words round it and lines broken', async () => {
    const text = await sealReply(reply);
    const wrapped = text.replace(/(.{64})/g, '$1\r\n');
    const quoted = `Hello,\n\nhere is my answer:\n\n${text.replace(/(.{40})/g, '$1\n  ')}\n\nRegards, Orla`;
    for (const pasted of [`  ${text}\n`, wrapped, quoted, `old: ${text.slice(0, 60)} new: ${text}`, `${text} thanks`, `"${text}"`]) {
      expect(await openReply(pasted), pasted).toEqual({ ok: true, reply });
    }
  });

  it('notice every cut and every changed character', async () => {
    const text = await sealReply(reply);
    for (let length = 0; length < text.length; length += 1) {
      const code = await codeOf(text.slice(0, length));
      if (!['empty', 'no-reply', 'cut-off', 'checksum'].includes(code)) throw new Error(`cut after ${length}: ${code}`);
    }
    for (let i = 0; i < text.length; i += 1) {
      for (const put of ['A', 'b', '7', '-', '.']) {
        if (text[i] === put) continue;
        const code = await codeOf(text.slice(0, i) + put + text.slice(i + 1));
        if (code === 'ok') throw new Error(`accepted with ${put} at ${i}`);
      }
    }
  });

  it('say what is wrong with what was pasted', async () => {
    expect(await openReply('  \n')).toMatchObject({
      code: 'empty',
      message: 'There is nothing to open. Paste the message of the customer.',
    });
    expect(await codeOf('yes please, all of it')).toBe('no-reply');
    expect(await codeOf('baysheet2.AAAA.AAAAAA')).toBe('version');
    expect(await codeOf('x'.repeat(200_000))).toBe('no-reply');
    expect(await codeOf('baysheet1.')).toBe('cut-off');
    for (const odd of [null, undefined, 4, {}]) expect((await openReply(odd as never)).ok).toBe(false);
  });

  it('read what they should, so that the refusals below are for what is odd in it', async () => {
    expect(await codeOf(forged(slots.join('\n')))).toBe('ok');
  });

  it.each([
    ['an estimate with no id', 0, ''],
    ['an id with markup', 0, '<script>'],
    ['revision 0', 1, '0'],
    ['a revision that is no number', 1, '1e3'],
    ['a hash that is too short', 2, 'abc'],
    ['a hash with bits left over', 2, `${reply.hash.slice(0, -1)}B`],
    ['no time', 3, ''],
    ['a time that is none', 3, '2026-13-45T99:00:00Z'],
    ['nobody', 4, '   '],
    ['a name that turns the writing round', 4, 'Orla \u202edeciled'],
    ['a name with an escape character', 4, 'Orla\u001b[31m'],
    ['a name with a nought character', 4, 'Orla\u0000'],
    ['a name as long as a book', 4, 'x'.repeat(201)],
    ['a contact of an unknown kind', 5, '7'],
    ['a line answered twice', 8, 'l1'],
    ['a line with markup', 8, '<img src=x>'],
    ['a line with no name', 8, 'l3,'],
    ['a total that is no amount', 10, '1,234.56'],
    ['a total with an exponent', 10, '1e9'],
    ['a currency that is none', 11, 'usd'],
    ['a locale that is none', 12, '../../etc'],
    ['no sentence', 13, ''],
    ['a sentence as long as a book', 13, 'x'.repeat(2001)],
    ['one slot too many', 13, 'I agree.\nmore'],
  ])('refuse %s', async (_, i, value) => {
    expect(await codeOf(withSlot(i, value))).toBe('damaged');
  });

  it('refuse an answer to no line, one with too few slots, other bytes, and a bomb', async () => {
    expect(await codeOf(forged(slots.with(7, '').with(8, '').join('\n')))).toBe('damaged');
    expect(await codeOf(forged(slots.slice(0, -1).join('\n')))).toBe('damaged');
    expect(await codeOf(forged(''))).toBe('damaged');
    expect(await codeOf(forged('\n'.repeat(4_000_000)))).toBe('damaged');
    expect(await codeOf(forged('\n'.repeat(20_000_000)))).toBe('checksum');
    const body = encodeBase64url(Uint8Array.of(0xff, 0xff, 0xff));
    const crc = crc32(Buffer.from(body));
    expect(await codeOf(`baysheet1.${body}.${encodeBase64url(Uint8Array.of(crc >>> 24, crc >>> 16, crc >>> 8, crc))}`)).toBe('damaged');
  });

  it('make no answer of what is missing or is none, and say which field', async () => {
    for (const [field, value] of [
      ['name', ' '],
      ['consent', ''],
      ['decisions', {}],
      ['decisions', { l1: 'proposed' }],
      ['decisions', ['approved']],
      ['total', 1234.56],
      ['hash', ''],
      ['at', 'today'],
      ['name', 'a\u202eb'],
    ] as const) {
      await expect(sealReply({ ...reply, [field]: value })).rejects.toMatchObject({
        code: 'reply',
        message: expect.stringContaining(`"${field}"`),
      });
    }
    await expect(sealReply({ ...reply, more: 1 } as never)).rejects.toMatchObject({ code: 'reply' });
  });
});
