/** Secrets in every private field of random documents: each a word, an id or the tail of a figure that stands nowhere else. */
import type { Drawing } from './arbitraries.js';
import { fullDocuments } from './full-documents.js';
import { IN_FILES, PUBLIC } from './private-fields.js';
import { type DocumentName, fieldKind, SCHEMAS, type Shape, variantOf } from './schema-fields.js';

export interface Planted {
  readonly documents: { readonly estimate: unknown; readonly catalogue: unknown; readonly rates: unknown };
  /** By the field that each stands in. */
  readonly secrets: readonly Secret[];
}

export interface Secret {
  readonly path: string;
  readonly secret: string;
  /** Not in a link, but in a file: the words and the picture of a photo that the shop gives away. */
  readonly inFiles: boolean;
}

/** What all private ids begin with. */
export const SECRET_ID = 'zqid-';

/** Plants a secret in every private field that there is, and fills those that are left out. */
export function plantCanaries(d: Drawing): Planted {
  const documents = fullDocuments(d);
  // Parts sold at their list price show it: then it is no secret.
  const shown = documents.rates.parts.basis === 'list' ? new Set([...PUBLIC, 'catalogue.parts.list']) : PUBLIC;
  const components = new Set((documents.catalogue.components as { id: string }[]).map(({ id }) => id));
  const planter = new Planter(shown, components);
  const plant = (name: DocumentName): unknown => planter.plant(SCHEMAS[name], documents[name], name);
  return { documents: { estimate: plant('estimate'), catalogue: plant('catalogue'), rates: plant('rates') }, secrets: planter.secrets };
}

class Planter {
  readonly secrets: Secret[] = [];
  private keptBack = false;

  constructor(
    private readonly shown: ReadonlySet<string>,
    private readonly components: ReadonlySet<string>,
  ) {}

  plant(shape: Shape, value: unknown, path: string): unknown {
    if (shape.wrapped !== undefined)
      return value === undefined || value === null ? this.fill(shape.wrapped, value, path) : this.plant(shape.wrapped, value, path);
    if (shape.type === 'variant') return this.plant(variantOf(shape, value)!, value, path);
    if (shape.entries !== undefined) return this.entries(shape.entries, value as Readonly<Record<string, unknown>>, path);
    if (shape.item !== undefined) return (value as unknown[]).map((entry) => this.plant(shape.item!, entry, path));
    if (shape.items !== undefined) return (value as unknown[]).map((entry, i) => this.plant(shape.items![i]!, entry, path));
    return this.shown.has(path) ? value : this.leaf(shape, value, path);
  }

  private entries(entries: Readonly<Record<string, Shape>>, value: Readonly<Record<string, unknown>>, path: string): object {
    this.keptBack = value['forCustomer'] === false;
    const planted = Object.entries(entries).map(([key, inner]) => [key, this.plant(inner, value[key], `${path}.${key}`)] as const);
    return Object.fromEntries(planted.filter(([, each]) => each !== undefined));
  }

  /** What is left out stays so where a secret there would say another thing (no limit, no reference), else it is filled. */
  private fill(shape: Shape, value: unknown, path: string): unknown {
    const inner = shape.wrapped ?? shape;
    const isLeaf = inner.entries === undefined && inner.item === undefined && inner.type !== 'variant';
    if (!isLeaf || this.shown.has(path) || fieldKind(inner) !== 'text') return value;
    return this.leaf(inner, '', path);
  }

  private leaf(shape: Shape, value: unknown, path: string): unknown {
    const text = String(value);
    switch (fieldKind(shape)) {
      case 'id':
        if (!this.secrets.some((each) => each.path === path)) this.note(path, SECRET_ID);
        return `${SECRET_ID}${text}`;
      case 'text':
        return this.text(text, path);
      case 'figure':
        return this.figure(text, path);
      case 'day':
        return this.note(path, `1931-0${1 + (this.secrets.length % 9)}-17`);
      case 'hash':
        return this.note(path, this.secrets.length.toString(16).padStart(64, 'fade'));
      case 'code':
        return this.note(path, `U3E${(0xa0 + (this.secrets.length % 0x60)).toString(16).toUpperCase()}`);
      case 'record':
        return { ...(value as object), secret: this.note(path, this.word()), deep: [{ er: this.note(path, this.word()) }] };
      default:
        return value;
    }
  }

  private text(text: string, path: string): string {
    // A finding names a component by its id; what is no id is what the advisor typed, and the customer reads it.
    if (path === 'estimate.findings.component') return this.components.has(text) ? `${this.note(path, SECRET_ID)}${text}` : text;
    return `${text}${text.startsWith('data:') ? '' : ' '}${this.note(path, this.word())}`.trim();
  }

  /** The figure with a tail that no sum brings about by chance. */
  private figure(text: string, path: string): string {
    const [whole, digits = ''] = text.split('.');
    const tail = this.note(path, String(7_130_001 + this.secrets.length * 7));
    return `${whole}.${digits.slice(0, 2).padEnd(2, '0')}${tail}`;
  }

  private word(): string {
    return `zqword${this.secrets.length}x`;
  }

  private note(path: string, secret: string): string {
    this.secrets.push({ path, secret, inFiles: IN_FILES.has(path) && !this.keptBack });
    return secret;
  }
}

/** The secrets that stand in a text. */
export function leaked(secrets: readonly Secret[], text: string): Secret[] {
  return secrets.filter(({ secret }) => text.includes(secret));
}
