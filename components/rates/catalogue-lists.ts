import { isReason } from '../../src/exchange/reason.js';
import type { CatalogueList, CatalogueLists, Keyed } from '../../src/store/catalogue-draft.js';
import { formatFigure } from '../look/format.js';
import {
  type CatalogueColumn,
  figure,
  idColumn,
  link,
  linkChoices,
  links,
  oneOf,
  optionalWords,
  partNeeds,
  readLinks,
  severalWords,
  usedBy,
  words,
} from './catalogue-cells.js';

type Columns = { readonly [L in CatalogueList]: readonly CatalogueColumn<Keyed<CatalogueLists[L]>>[] };

/** What the lists are called, and one entry of each. */
export const LIST_TITLES: Readonly<Record<CatalogueList, { readonly title: string; readonly one: string }>> = {
  operations: { title: 'Operations', one: 'operation' },
  steps: { title: 'Steps', one: 'step' },
  parts: { title: 'Parts', one: 'part' },
  remedies: { title: 'Remedies', one: 'remedy' },
  components: { title: 'Components', one: 'component' },
  cautions: { title: 'Cautions', one: 'caution' },
  overlaps: { title: 'Declared overlaps', one: 'overlap' },
  methods: { title: 'Test methods', one: 'method' },
};

const PER = ['vehicle', 'position'];

/** The columns of every list: the one place that says what a person can see and change of a catalogue. */
export const CATALOGUE_COLUMNS: Columns = {
  operations: [
    words('title', 'Operation', 230, { required: 'An operation' }),
    idColumn('operations', 'operation'),
    words('system', 'System', 84),
    link('labourClass', 'labourClasses', 'Class', 84, { help: 'The labour class of the rate card that it is charged at' }),
    figure('bookHours', 'Book h', 60, { empty: '0', help: 'Hours on its own, with all steps that it needs' }),
    {
      id: 'own',
      title: 'Own h',
      width: 56,
      align: 'end',
      help: 'Book hours less the hours of its steps',
      show: (row, { index, locale }) => formatFigure(index.ownHours(row), locale),
    },
    figure('additionalHours', 'Further h', 78, { empty: '0', help: 'For each position after the first' }),
    oneOf('per', 'Per', 70, PER),
    links('steps', 'steps', 'Steps', 180, 'What must come off for it; what those need comes by itself'),
    partNeeds(180),
    links('includes', 'operations', 'Includes', 150, 'Operations that are part of this one'),
    links('fees', 'fees', 'Fees', 110),
    links('cautions', 'cautions', 'Cautions', 130),
    words('basis', 'Basis', 90, { help: 'Where the time comes from' }),
    usedBy('operations'),
  ],
  steps: [
    words('title', 'Step', 260, { required: 'A step' }),
    idColumn('steps', 'step'),
    figure('hours', 'Hours', 60, { empty: '0' }),
    oneOf('per', 'Per', 70, PER),
    links('needs', 'steps', 'Needs', 180, 'Steps that must be done before it'),
    partNeeds(180),
    links('cautions', 'cautions', 'Cautions', 150),
    optionalWords('open', 'On the way in', 160, 'For the technician’s work sheet'),
    optionalWords('close', 'On the way back', 160, 'For the technician’s work sheet'),
    usedBy('steps'),
  ],
  parts: [
    words('title', 'Part', 260, { required: 'A part' }),
    idColumn('parts', 'part'),
    words('number', 'Number', 120),
    figure('cost', 'Cost', 76, { empty: '0', help: 'What the shop pays' }),
    figure('list', 'List price', 76, { empty: null, help: 'Empty: there is none' }),
    figure('core', 'Core charge', 88, { empty: '0' }),
    oneOf('condition', 'Condition', 110, ['new', 'used', 'rebuilt', 'reconditioned']),
    optionalWords('supplier', 'Supplier', 130, 'Where it is usually bought'),
    usedBy('parts'),
  ],
  remedies: [
    link('component', 'components', 'Component', 160),
    words('fault', 'Fault', 260),
    links('operations', 'operations', 'Put right by', 240, 'All operations that it takes'),
    {
      id: 'instead',
      title: 'Instead',
      width: 240,
      help: 'Other ways, with semicolons between; several operations of one way with commas',
      show: (row) => row.instead.map((way) => way.join(', ')).join('; '),
      enter: (text, _row, view) => {
        const ways = text.split(';').map((way) => readLinks(way, 'operations', view));
        const wrong = ways.find(isReason);
        return wrong ?? { instead: (ways as string[][]).filter((way) => way.length > 0) };
      },
      choices: (typed, _row, view) => linkChoices(typed, 'operations', view, ','),
    },
  ],
  components: [
    words('title', 'Component', 260, { required: 'A component' }),
    idColumn('components', 'component'),
    severalWords('positions', 'Positions', 300, 'Where it can be, with semicolons between'),
    usedBy('components'),
  ],
  cautions: [words('text', 'Caution', 560, { required: 'A caution' }), idColumn('cautions', 'caution'), usedBy('cautions')],
  overlaps: [
    pairColumn(0, 'Operation'),
    pairColumn(1, 'And'),
    figure('hours', 'Shared h', 76, { empty: '0', help: 'Hours that both have in common' }),
  ],
  methods: [
    words('title', 'Method', 240, { required: 'A method' }),
    idColumn('methods', 'method'),
    words('unit', 'Unit', 60),
    figure('start', 'Start', 64, { empty: null, help: 'Brought to this' }),
    figure('minutes', 'Minutes', 70, { empty: null, help: 'Watched so long' }),
    figure('drop', 'Drop', 60, { empty: null, help: 'At most so much lost' }),
    figure('least', 'Least', 60, { empty: null, signed: true, help: 'Of a reading' }),
    figure('most', 'Most', 60, { empty: null, signed: true, help: 'Of a reading' }),
    links('cautions', 'cautions', 'Cautions', 150),
    link('closing', 'operations', 'Closing test', 150, { empty: null, help: 'The operation that repeats it after the repair' }),
    words('basis', 'Basis', 100, { help: 'Where the limits come from' }),
  ],
};

/** One of the two operations of a declared overlap. */
function pairColumn(at: 0 | 1, title: string): CatalogueColumn<Keyed<CatalogueLists['overlaps']>> {
  const inner = link<{ readonly between: string | null }>('between', 'operations', title, 260);
  return {
    id: at === 0 ? 'between' : 'and',
    title,
    width: 260,
    show: (row) => row.between[at],
    enter: (text, row, view) => {
      const found = inner.enter!(text, { between: null }, view);
      if (isReason(found)) return found;
      const between: [string, string] = at === 0 ? [found.between!, row.between[1]] : [row.between[0], found.between!];
      return { between };
    },
    choices: (typed, _row, view) => linkChoices(typed, 'operations', view, null),
  };
}
