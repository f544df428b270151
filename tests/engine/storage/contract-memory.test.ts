import { describe, it } from 'vitest';
import { Memory, openMemoryStore } from '../../../components/storage/memory-store.js';
import { CONTRACT, runCheck } from '../../support/storage-contract.js';

describe('a store in memory', () => {
  it.each(CONTRACT.map(({ name }) => name))('%s', async (name) => {
    const memory = new Memory();
    await runCheck(name, openMemoryStore(memory), openMemoryStore(memory));
  });
});
