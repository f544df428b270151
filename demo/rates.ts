import '../components/rates/define.js';
import { openBrowserStore } from '../components/storage/browser-store.js';
import { parseCatalogue } from '../src/index.js';
import { MadeUpEstimates } from './made-up-estimates.js';

/** The example cards, by the word in the page's address. */
const CARDS = ['demo', 'us-parts-tax', 'canada-quebec', 'canada-ontario', 'uk', 'germany', 'australia', 'new-zealand', 'japan'];

const asked = new URLSearchParams(location.search).get('card') ?? 'demo';
const card = CARDS.includes(asked) ? asked : 'demo';

const desk = document.querySelector('baysheet-rates')!;
desk.storage = openBrowserStore();
desk.ratesSrc = `./rates/card.${card}.json`;

/** As many past estimates as a busy shop writes in some years, made up as they are read. */
const MADE_UP = 10_000;

const catalogue = parseCatalogue(await (await fetch('./rates/catalogue.demo.json')).text());
if (catalogue.ok) desk.estimates = new MadeUpEstimates(catalogue.value, MADE_UP);
