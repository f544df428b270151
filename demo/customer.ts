import '../components/customer/define.js';

/** Said by the example only: a customer who comes by a link sees nothing of it. */
const SIGNED = 'An example. It was signed a moment ago on this page, by a key that is made for it and thrown away; a real link is signed by the shop.';
const UNSIGNED = 'An example without a signature: this page was not opened over https, so the browser has no signatures.';

const element = document.querySelector('baysheet-customer')!;

if (location.hash.startsWith('#e=')) void openLink();
else void showExample();
window.addEventListener('hashchange', () => location.reload());

/** A link from the advisor’s page of this demonstration, whose key lies in this browser. A shop’s page would name a file with its public keys. */
async function openLink(): Promise<void> {
  element.keysSrc = './customer.keys.json';
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
