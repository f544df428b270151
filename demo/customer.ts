import '../components/customer/define.js';
import { shopKey } from '../components/share/keys.js';

/** Said by the example only: a customer who comes by a link sees nothing of it. */
const SIGNED = 'An example. It was signed a moment ago on this page, by a key that is made for it and thrown away; a real link is signed by the shop.';
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
  const own = await shopKey().then(({ publicJwk }) => [publicJwk as JsonWebKey], () => []);
  element.keys = [...published, ...own];
  element.fromHash = true;
}

async function showExample(): Promise<void> {
  const { makeExample } = await import('./customer-example.js');
  const { token, keys, copy } = await makeExample();
  const note = document.querySelector<HTMLElement>('#example')!;
  note.textContent = token === null ? UNSIGNED : SIGNED;
  note.hidden = false;
  if (token === null) element.copy = copy;
  else Object.assign(element, { keys, token });
}
