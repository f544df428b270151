import type { CustomerCopy } from '../../src/share/customer-copy.js';

/** What a customer's file is made of. */
export interface CustomerFile {
  readonly copy: CustomerCopy;
  /** Hash of the sealed copy, which the answer names; empty where nothing could be sealed. */
  readonly hash: string;
  /** The script that registers `<baysheet-customer>`, all in one. */
  readonly script: string;
  readonly lang: string;
  readonly title: string;
}

/**
 * The customer's estimate as one page that needs nothing else: for mail, and for shops that want no links. A file is
 * not signed: whoever passes it on could change it, so the shop checks the total when the answer comes back.
 */
export function customerFile({ copy, hash, script, lang, title }: CustomerFile): string {
  return `<!doctype html>
<html lang="${attribute(lang)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data:">
<title>${text(title)}</title>
<style>:root { color-scheme: light dark } body { margin: 0 }</style>
</head>
<body>
<baysheet-customer hash="${attribute(hash)}"></baysheet-customer>
<script type="application/json" id="copy">${inScript(JSON.stringify(copy))}</script>
<script type="module">${inScript(script)}
document.querySelector('baysheet-customer').copy = JSON.parse(document.getElementById('copy').textContent);
</script>
</body>
</html>
`;
}

function text(value: string): string {
  return value.replace(/&/g, '&amp;').replace(/</g, '&lt;');
}

function attribute(value: string): string {
  return text(value).replace(/"/g, '&quot;');
}

/** Nothing inside a script may end it. In JSON and in a script's strings `<\/` is the same as `</`. */
function inScript(value: string): string {
  return value.replace(/<\/(script)/gi, '<\\/$1').replace(/<!--/g, '<\\!--');
}
