/** Tabs that ask each other over a channel, in Node; tabs of a browser are in tests/browser/storage-presence.test.ts. */
import { afterEach, describe, expect, it } from 'vitest';
import { openPresence, type Presence, type PresenceState } from '../../../components/storage/presence.js';
import { until } from '../../support/storage-contract.js';

const open: Presence[] = [];
afterEach(() => {
  for (const presence of open.splice(0)) presence.close();
});

function tab(name: string, patience = 20): Presence & { heard: PresenceState[] } {
  const heard: PresenceState[] = [];
  const presence = openPresence(name, (state) => void heard.push(state), {
    locks: null,
    openChannel: (topic) => new BroadcastChannel(topic),
    patience,
  });
  open.push(presence);
  return Object.assign(presence, { heard });
}

describe('tabs that ask each other', () => {
  it('the first has it, the second knows', async () => {
    const first = tab('a');
    expect(first.state).toBe('asking');
    await until('the first has it', () => first.state === 'here');
    const second = tab('a');
    await until('the second knows', () => second.state === 'elsewhere');
    expect(first.heard).toEqual(['here']);
    expect(second.heard).toEqual(['elsewhere']);
  });

  it('another estimate is another question', async () => {
    const [one, other] = [tab('a'), tab('b')];
    await until('both have theirs', () => one.state === 'here' && other.state === 'here');
  });

  it('taking over is heard, and works both ways', async () => {
    const first = tab('a');
    await until('the first has it', () => first.state === 'here');
    const second = tab('a');
    await until('the second knows', () => second.state === 'elsewhere');
    second.takeOver();
    await until('the first steps back', () => first.state === 'elsewhere' && second.state === 'here');
    first.takeOver();
    await until('and takes it again', () => first.state === 'here' && second.state === 'elsewhere');
    expect(second.heard).toEqual(['elsewhere', 'here', 'elsewhere']);
  });

  it('of many at once exactly one has it', async () => {
    const tabs = Array.from({ length: 8 }, () => tab('a'));
    await until('one', () => tabs.filter(({ state }) => state === 'here').length === 1 && tabs.every(({ state }) => state !== 'asking'));
    // Nor does it change when everybody has asked a few times more.
    const holder = tabs.find(({ state }) => state === 'here')!;
    const asked = holder.heard.length;
    const late = tab('a');
    await until('a late one knows', () => late.state === 'elsewhere');
    expect(holder.heard.length).toBe(asked);
    expect(tabs.filter(({ state }) => state === 'here')).toEqual([holder]);
  });

  it('one that waits gets it when it is let go', async () => {
    const first = tab('a');
    await until('the first has it', () => first.state === 'here');
    const waiting = [tab('a'), tab('a')];
    await until('both wait', () => waiting.every(({ state }) => state === 'elsewhere'));
    first.close();
    await until('one of them has it', () => waiting.filter(({ state }) => state === 'here').length === 1);
  });

  it('one that waits gets it when the other was frozen; that one steps back when it comes to itself', async () => {
    const channels: BroadcastChannel[] = [];
    const frozen = openPresence('a', () => undefined, {
      locks: null,
      openChannel: (topic) => {
        const channel = new BroadcastChannel(topic);
        channels.push(channel);
        return channel;
      },
      patience: 20,
    });
    open.push(frozen);
    await until('the first has it', () => frozen.state === 'here');
    const second = tab('a');
    await until('the second waits', () => second.state === 'elsewhere');
    const hear = channels[0]!.onmessage;
    const missed: MessageEvent[] = [];
    channels[0]!.onmessage = (event) => void missed.push(event);
    await until('the second has it', () => second.state === 'here');
    channels[0]!.onmessage = hear;
    for (const event of missed) channels[0]!.onmessage?.(event);
    await until('the first steps back', () => frozen.state === 'elsewhere' && second.state === 'here');
  });

  it('where nobody can be asked, this tab has it', async () => {
    const heard: PresenceState[] = [];
    open.push(openPresence('a', (state) => void heard.push(state), { locks: null, openChannel: null }));
    await until('it has it', () => heard.length === 1);
    expect(heard).toEqual(['here']);
  });
});
