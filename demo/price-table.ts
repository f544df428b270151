import { type Documents, type Line, type PricedCharge, type PricedEstimate, type PricedLine, printProblem } from '../src/index.js';

/** A column: its heading, and whether its cells are figures, which stand to the right. */
interface Column {
  readonly heading: string;
  readonly figures?: boolean;
}

const LINES: readonly Column[] = [
  { heading: 'line' },
  { heading: 'work, parts and fees' },
  { heading: 'qty', figures: true },
  { heading: 'unit', figures: true },
  { heading: 'book h', figures: true },
  { heading: 'shared h', figures: true },
  { heading: 'charged h', figures: true },
  { heading: 'rate', figures: true },
  { heading: 'amount', figures: true },
  { heading: 'decision' },
];

const STEPS: readonly Column[] = [
  { heading: 'access step' },
  { heading: 'hours', figures: true },
  { heading: 'carried by' },
  { heading: 'needed by' },
  { heading: 'saved h', figures: true },
];

/** A priced estimate as text for a terminal. */
export function priceTable({ estimate, catalogue, rates }: Documents, priced: PricedEstimate): string {
  const once = priced.charges.filter((charge) => charge.line === null);
  const rows = [
    ...priced.lines.flatMap((line, i) => lineRows(line, estimate.lines[i]!, priced)),
    ...once.map((charge) => chargeRow(charge, '')),
  ];
  const sections = [
    [
      `Estimate ${estimate.number}, revision ${estimate.revision}: ${estimate.vehicle.label}`,
      `Catalogue: ${catalogue.title}`,
      `Rate card: ${rates.title}`,
      `All money in ${priced.currency}${priced.pricesIncludeTax ? ', tax included' : ''}.`,
    ],
    table(LINES, rows),
    sharedWork(priced),
    totals(priced),
    ['Saved by doing it together', `${priced.overlap.hours} h of labour, ${priced.overlap.money} ${priced.currency}`],
    titled(
      'Cautions',
      priced.cautions.map(({ text, lines }) => `${text} (${lines.join(', ')})`),
    ),
    titled('Problems', priced.problems.map(printProblem)),
    priced.complete ? [] : ['NOT COMPLETE: the errors above keep something out of the sum.'],
  ];
  return `${sections
    .filter((section) => section.length > 0)
    .map((section) => section.join('\n'))
    .join('\n\n')}\n`;
}

/** The line with its labour, then its parts, cores and fees, each indented under it. */
function lineRows(line: PricedLine, source: Line, priced: PricedEstimate): string[][] {
  if (line.kind === 'note') return [[line.id, `note: ${line.title}`]];
  const works = line.kind === 'operation' || line.kind === 'labour';
  const hours = works ? [line.bookHours, line.sharedHours, line.chargedHours, line.rate] : ['', '', '', ''];
  const charges = priced.charges.filter((charge) => charge.line === line.id);
  const own = works ? undefined : charges[0];
  const under = charges.filter((charge) => charge.kind !== 'labour' && charge !== own);
  const amount = works ? line.labour : (own?.amount ?? line.amount);
  const head = [line.id, titleOf(line, source), own?.qty ?? '', own?.unit ?? '', ...hours, amount, decisionOf(line)];
  return [head, ...under.map((charge) => chargeRow(charge, '  '))];
}

function titleOf(line: PricedLine, source: Line): string {
  const positions = source.kind === 'operation' ? source.positions : [];
  return positions.length === 0 ? line.title : `${line.title} (${positions.join(', ')})`;
}

function decisionOf(line: PricedLine): string {
  if (line.includedIn !== null) return `${line.decision}, part of ${line.includedIn}`;
  const unpriced = !line.priced && (line.decision === 'proposed' || line.decision === 'approved');
  return unpriced ? `${line.decision}, NOT PRICED` : line.decision;
}

function chargeRow(charge: PricedCharge, indent: string): string[] {
  return [
    '',
    `${indent}${charge.title}${charge.kind === 'core' ? ' (core charge)' : ''}`,
    charge.qty,
    charge.unit,
    '',
    '',
    '',
    '',
    charge.amount,
    '',
  ];
}

function sharedWork({ overlap }: PricedEstimate): string[] {
  const steps = overlap.steps
    .filter(({ lines }) => lines.length > 1)
    .map(({ title, position, hours, carriedBy, lines, savedHours }) => [
      position === null ? title : `${title} (${position})`,
      hours,
      carriedBy,
      lines.join(', '),
      savedHours,
    ]);
  const pairs = overlap.pairs.map(({ between: [first, second], hours }) => `${second} shares ${hours} h with ${first} (declared overlap)`);
  return titled('Shared work, paid once', [...(steps.length > 0 ? table(STEPS, steps) : []), ...pairs]);
}

function totals({ totals: sums, pricesIncludeTax }: PricedEstimate): string[] {
  const rows: [string, string][] = [
    ['labour', sums.labour],
    ['parts', sums.part],
    ['cores', sums.core],
    ['sublet', sums.sublet],
    ['fees', sums.fee],
    ['supplies', sums.supplies],
    ['subtotal', sums.subtotal],
    ...sums.discounts.map(({ title, amount }): [string, string] => [`discount: ${title}`, `-${amount}`]),
    ...sums.taxes.map(({ title, percent, base, amount, exempt }): [string, string] => [
      `${pricesIncludeTax ? 'of which ' : ''}${title}, ${exempt ? 'exempt' : `${percent} % of ${base}`}`,
      amount,
    ]),
    ['TOTAL', sums.total],
    ...(sums.cash === sums.total ? [] : [['in cash', sums.cash] as [string, string]]),
  ];
  return titled('Totals', align([{ heading: '' }, { heading: '', figures: true }], rows));
}

function titled(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [title, ...lines];
}

function table(columns: readonly Column[], rows: readonly (readonly string[])[]): string[] {
  const [head = '', ...body] = align(columns, [columns.map(({ heading }) => heading), ...rows]);
  const rule = '-'.repeat(Math.max(...[head, ...body].map(width)));
  return [head, rule, ...body];
}

/** Each column as wide as its longest cell; a row that ends early (a note) may run over the rest. */
function align(columns: readonly Column[], rows: readonly (readonly string[])[]): string[] {
  const widths = columns.map((_, i) =>
    Math.max(...rows.filter((row) => i < row.length - 1 || row.length === columns.length).map((row) => width(row[i] ?? ''))),
  );
  return rows.map((row) =>
    row
      .map((cell, i) => {
        const space = ' '.repeat(Math.max(0, widths[i]! - width(cell)));
        return columns[i]!.figures ? space + cell : cell + space;
      })
      .join('  ')
      .trimEnd(),
  );
}

/** Characters, not UTF-16 units. */
function width(text: string): number {
  return [...text].length;
}
