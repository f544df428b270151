/** What the page says before an answer is checked, in English. The other languages have the same keys, which the compiler checks. */
export const en = {
  language: 'Language',
  estimate: (number: string) => `Estimate ${number}`.trim(),
  revision: (n: number) => `revision ${n}`,
  vehicle: 'Vehicle',
  plate: 'Plate',
  odometer: 'Odometer',
  customer: 'For',
  concern: 'You told us',
  call: (phone: string) => `Call ${phone}`,

  waiting: 'Opening the estimate …',
  empty: 'There is no estimate here. Open the whole link that the shop sent you.',
  refused: 'This estimate cannot be shown',
  refusedHelp: 'Nothing has been agreed to. Ask the shop to send the link again.',
  notLoaded: 'This part of the page could not be loaded. Load the page again when you are online.',
  refusals: {
    damaged: 'The link is damaged or not complete. Messages sometimes cut long links off.',
    altered: 'This link was not made by this shop, or somebody has changed it on its way.',
    tooLong: 'The link is far too long to be an estimate.',
    version: 'The link was made for another version of this page. Load the page again.',
    browser: 'This browser cannot check who made the link. The page has to be opened over https, in a browser of today.',
    pricing: 'The figures of this estimate do not fit together, so no price can be shown.',
    keys: 'The page could not load what it needs to check who made the link. Try again when you are online.',
  },

  found: 'What we found',
  moreMayBeFound: 'The last test still found something. More may be found until a test finds nothing new.',
  urgency: { unsafe: 'Not safe to drive', now: 'Needs doing now', soon: 'Needs doing soon', watch: 'Keep an eye on it' },
  photo: 'Photo',
  noWork: 'No work is proposed for this.',
  unsafeCaution: 'Do not drive the vehicle until the shop tells you that it is safe.',

  work: 'The work, line by line',
  unit: { new: 'new', used: 'used', rebuilt: 'rebuilt', reconditioned: 'reconditioned' },
  mends: 'Puts right:',
  hours: 'Labour is charged by the hours of the labour guide, not by the clock.',
  each: (amount: string) => `${amount} each`,
  shared: (book: string, shared: string) => `${book} by the guide, of which ${shared} is paid on another line`,
  includedIn: (title: string) => `Part of “${title}”: no labour of its own.`,
  extraHours: (hours: string) => `with ${hours} of extra work`,
  discount: 'Discount',
  tax: 'Tax',
  taxInside: 'Tax, inside the price',
  line: 'This line',
  now: 'Adds now, with the rest',
  later: 'Later, by itself',
  more: (amount: string) => `${amount} more later`,
  because: (steps: string) => `because this is paid twice: ${steps}`,
  becauseWork: (titles: string) => `because work in common is paid twice: ${titles}`,
  less: (amount: string) => `${amount} less`,
  question: (title: string) => `Your answer to: ${title}`,
  yes: 'Yes',
  no: 'No',
  wait: 'Later',
  earlier: 'You agreed to this earlier.',
  unsafeLeft: 'This is unsafe as long as it is not mended.',
  allYes: 'Yes to all that is open',
  allLater: 'Leave all that is open for later',

  totals: 'What it comes to',
  kinds: { labour: 'Labour', part: 'Parts', core: 'Core charges', sublet: 'Work by other shops', supplies: 'Supplies', fee: 'Fees' },
  suppliesRule: (percent: string, of: string) => `${percent} of ${of}`,
  atLeast: (amount: string) => `at least ${amount}`,
  atMost: (amount: string) => `at most ${amount}`,
  subtotal: 'Subtotal',
  taxOf: (percent: string, base: string) => `${percent} of ${base}`,
  exempt: 'exempt',
  inside: 'inside the prices',
  total: 'Total',
  cash: 'Total in cash',
  declined: 'Left out: what you said no to, or later',
  saved: 'Saved by doing it together',
  savedHours: (hours: string) => `${hours} of labour paid once`,
  open: (n: number) => (n === 1 ? '1 line still to answer' : `${n} lines still to answer`),
  allAnswered: 'All answered',
  announce: (total: string, rest: string) => `Total ${total}. ${rest}.`,

  budget: 'Fit to my budget',
  budgetHelp: 'Name the most that you can spend now. The most urgent work comes first.',
  ceiling: 'The most I can spend',
  propose: 'Show what fits',
  looking: 'Working out what fits …',
  notFigure: (example: string) => `This is no amount. Type one like ${example}.`,
  taken: 'Your answers are set like this. You can change each of them.',

  toConfirm: 'Review',
  toAnswer: (n: number) =>
    n === 1 ? 'One line has no answer yet. Please answer it first.' : `${n} lines have no answer yet. Please answer them first.`,

  print: 'Print or save as PDF',
  and: ', ',
};

export type Messages = Shape<typeof en>;

/** The same keys and the same arguments, with any text. */
export type Shape<T> = {
  readonly [K in keyof T]: T[K] extends string
    ? string
    : T[K] extends (...given: infer Given) => string
      ? (...given: Given) => string
      : Shape<T[K]>;
};
