import type { OpenFault } from './open.js';

const CUT_OFF = 'Part of the link is missing. Open it again from the message of the shop, all of it, or ask the shop to send it again.';
const ASK = 'Ask the shop to send you a new link.';

/** Why a link is refused, in words for the person who has it. */
export const REFUSALS: Readonly<Record<Exclude<OpenFault, 'no-crypto' | 'old-browser'>, string>> = {
  empty: `There is no estimate in this link. ${CUT_OFF}`,
  'too-long': `This link is longer than any that a shop makes, so it is not opened. ${ASK}`,
  'cut-off': CUT_OFF,
  algorithm: `This link is not signed in the way in which the shop signs, so it is not shown. ${ASK}`,
  'unknown-key': `This link was not signed by the shop that runs this page, so it is not shown. ${ASK}`,
  signature: `This link was not signed by the shop that runs this page, or something in it has been changed since, so it is not shown. ${ASK}`,
  keys: 'This page does not know the key of the shop, so it cannot tell whether the link is genuine. Tell the shop.',
  version:
    'This link was made for another version of this page. Load the page again; if that does not help, ask the shop to send you a new link.',
  damaged: `The shop signed this link, but it cannot be read. ${ASK}`,
  'too-large': `This link holds more than an estimate can, so it is not opened. ${ASK}`,
};
