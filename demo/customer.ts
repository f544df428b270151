import type {} from '../components/customer/define.js';
import { shopKey } from '../components/share/keys.js';
import type { Example } from './customer-example.js';

/** Said by the example only: a customer who comes by a link sees nothing of it. */
const SIGNED =
  'An example. It was signed when this demonstration was built, by a key that was made for it and thrown away; a real link is signed by the shop.';
const UNSIGNED = 'An example without a signature: this page was not opened over https, so the browser has no signatures.';

const element = document.querySelector('baysheet-customer')!;
element.lang = navigator.language;

if (location.hash.startsWith('#e=')) void openLink();
else void showExample();
window.addEventListener('hashchange', () => location.reload());

/**
 * A shop’s page names its public keys in a file beside it: `customer.keys.json`, which is empty here. The demonstration
 * has no shop: it also trusts the key of this browser, with which the advisor’s page beside it signs.
 */
async function openLink(): Promise<void> {
  const published = await fetch('./customer.keys.json')
    .then(async (response) => ((await response.json()) as { keys: JsonWebKey[] }).keys)
    .catch(() => []);
  const own = await shopKey().then(
    ({ publicJwk }) => [publicJwk as JsonWebKey],
    () => [],
  );
  element.keys = [...published, ...own];
  element.fromHash = true;
}

async function showExample(): Promise<void> {
  const { token, keys, copy } = (await (await fetch('./customer-example.json')).json()) as Example;
  const isSigned = globalThis.crypto?.subtle !== undefined;
  const note = document.querySelector<HTMLElement>('#example')!;
  note.textContent = isSigned ? SIGNED : UNSIGNED;
  note.hidden = false;
  Object.assign(element, isSigned ? { keys, token } : { copy });
}
