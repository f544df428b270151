import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { type Declaration, readManifest } from '../../support/manifest.js';
import type { At } from './walks.js';

interface Sent {
  readonly type: string;
  readonly bubbles: boolean;
  /** Why the detail cannot be cloned; empty where it can. */
  readonly fault: string;
}

/** For a page before its own scripts: notes every event that leaves a shadow root, as it is sent. */
export function noteEvents(): void {
  const sent: Sent[] = [];
  Object.assign(window, { sentEvents: sent });
  const dispatch = EventTarget.prototype.dispatchEvent;
  EventTarget.prototype.dispatchEvent = function (event) {
    if (event instanceof CustomEvent && event.composed) {
      let fault = '';
      try {
        structuredClone(event.detail);
      } catch (cannot) {
        fault = String(cannot);
      }
      sent.push({ type: event.type, bubbles: event.bubbles, fault });
    }
    return dispatch.call(this, event);
  };
}

/** Parts that can be reached from outside, slots and custom properties, as they are now. */
function lookInside(tag: string): { parts: string[]; slots: string[]; customProperties: string[] } {
  const partsOf = (root: ShadowRoot): Set<string> => {
    const parts = new Set([...root.querySelectorAll('[part]')].flatMap((element) => [...element.part]));
    for (const element of root.querySelectorAll('[exportparts]')) {
      const inner = element.shadowRoot === null ? new Set<string>() : partsOf(element.shadowRoot);
      for (const words of element.getAttribute('exportparts')!.split(',')) {
        const [from, to = from] = words.split(':').map((word) => word.trim());
        if (inner.has(from!)) parts.add(to!);
      }
    }
    return parts;
  };
  const customProperties = new Set<string>();
  const read = (root: ShadowRoot): void => {
    for (const sheet of root.adoptedStyleSheets) {
      for (const rule of sheet.cssRules)
        for (const [, name] of rule.cssText.matchAll(/var\(\s*(--baysheet-[\w-]+)/g)) customProperties.add(name!);
    }
    for (const element of root.querySelectorAll('*')) if (element.shadowRoot) read(element.shadowRoot);
  };
  const { shadowRoot } = document.querySelector(tag)!;
  read(shadowRoot!);
  return {
    parts: [...partsOf(shadowRoot!)],
    slots: [...shadowRoot!.querySelectorAll('slot')].map(({ name }) => name),
    customProperties: [...customProperties],
  };
}

let manifest: Map<string, Declaration> | undefined;

/** What is seen of an element while its whole job is done, to be compared with what its comments promise. */
export class Seen {
  private readonly names = { parts: new Set<string>(), slots: new Set<string>(), customProperties: new Set<string>() };

  constructor(
    private readonly page: Page,
    private readonly tag: string,
  ) {}

  readonly look: At = async () => {
    const found = await this.page.evaluate(lookInside, this.tag);
    for (const key of ['parts', 'slots', 'customProperties'] as const) for (const name of found[key]) this.names[key].add(name);
  };

  /** Parts, slots, custom properties and events: those that are documented, and no others. */
  async expectAsDocumented(): Promise<void> {
    manifest ??= readManifest('test-output/manifest-of-the-jobs');
    const { cssParts = [], slots = [], cssProperties = [], events = [] } = manifest.get(this.tag)!;
    const listed = (list: readonly { readonly name: string }[]): string[] => list.map(({ name }) => name).sort();
    const { parts, slots: slotted, customProperties } = this.names;
    expect.soft([...parts].sort(), 'parts').toEqual(listed(cssParts));
    expect.soft([...slotted].sort(), 'slots').toEqual(listed(slots));
    expect.soft([...customProperties].sort(), 'custom properties').toEqual(listed(cssProperties));
    // One that an element inside sends comes from this element too, for whoever hears it outside.
    const sent = await this.page.evaluate(() => (window as unknown as { sentEvents: Sent[] }).sentEvents);
    expect.soft([...new Set(sent.map(({ type }) => type))].sort(), 'events').toEqual(listed(events));
    expect
      .soft(
        sent.filter(({ type, bubbles, fault }) => !/^baysheet-[a-z]+$/.test(type) || !bubbles || fault !== ''),
        'events',
      )
      .toEqual([]);
  }
}
