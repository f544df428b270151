import type { Messages, Shape } from './en.js';

/** What is said of a budget, of an answer and of its way to the shop, in English: it comes with the part of the page that says it. */
export const enAnswer = {
  fits: (n: number, total: string) => (n === 1 ? `1 line fits, for ${total}.` : `${n} lines fit, for ${total}.`),
  fitsNone: 'No line fits within that amount.',
  keptIsMore: (total: string) => `What you agreed to earlier is more than that by itself: ${total}.`,
  fitsAll: 'All of the work fits.',
  leftOut: 'For later would be:',
  unsafeLeftOut: 'This would be left out although it is not safe:',
  unsafeIsOut: 'You leave this out although it is not safe:',
  take: 'Answer like this',
  leave: 'Leave my answers as they are',

  confirm: 'Check your answer',
  nothingYet: 'Nothing is authorised before you confirm at the bottom of this page.',
  saidYes: 'To be done',
  saidNo: 'Not to be done',
  saidLater: 'Later',
  change: 'Change my answers',
  you: 'Your name and how to reach you',
  name: 'Your name',
  reach: 'Phone or e-mail: one of them is enough.',
  phone: 'Phone',
  email: 'E-mail',
  needName: 'Please write your name.',
  needContact: 'Please give a phone number or an e-mail address, so that the shop can reach you.',
  badEmail: 'This e-mail address is not complete. It should read like name@example.com.',
  badPhone: 'This phone number is not complete.',
  needConsent: 'Please tick the sentence, or change your answers.',
  shop: 'the shop',
  consent: (shop: string, total: string) =>
    `I authorise ${shop} to do the work listed as “To be done” for a total of ${total}, tax included.`,
  consentNone: (shop: string) => `I do not authorise ${shop} to do any of this work.`,
  headroom: (amount: string, rule: string) =>
    `The shop may charge up to ${amount} more without asking me again (its rule: ${rule}). For anything above that it has to ask me first.`,
  noHeadroom: 'For anything above that the shop has to ask me first.',
  ruleBoth: {
    lesser: (a: string, b: string) => `${a} or ${b}, whichever is less`,
    greater: (a: string, b: string) => `${a} or ${b}, whichever is more`,
  },
  ruleCap: (rule: string, cap: string) => `${rule}, at most ${cap}`,
  beforeTax: 'before tax',
  ruleNote: (source: string) =>
    `The rule is the shop’s own setting${source === '' ? '' : `, which names: ${source}`}. This is no legal advice; the law of your place decides.`,
  send: 'Confirm and answer',
  sending: 'Sending …',

  done: 'Your answer',
  doneNotSent: 'The shop does not have it yet. Send it in one of these ways:',
  doneSent: 'Your answer has been handed to the shop.',
  postFailed: 'The shop’s server could not be reached. Try again, or send your answer in another way.',
  again: 'Try again',
  share: 'Share …',
  sms: 'Text message',
  mail: 'E-mail',
  copy: 'Copy',
  copied: 'Copied.',
  copyFailed: 'Could not be copied. Select the text below and copy it by hand.',
  qr: 'Show as QR code',
  qrLabel: 'QR code with your answer',
  qrTooLong: 'Your answer is too long for a QR code. Send it in another way.',
  code: 'Your answer, as the shop’s sheet reads it',
  subject: (number: string) => `Answer to estimate ${number}`.trim(),
  message: (number: string, n: number, of: number, total: string) =>
    `My answer to estimate ${number}: yes to ${n} of ${of} lines, ${total} in total. For the shop’s sheet:`,
};

/** Everything that is said. Languages that are loaded by themselves have all of it in one file. */
export type AllMessages = Messages & Shape<typeof enAnswer>;
