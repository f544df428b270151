import type { EstimateSource } from './replay-source.js';

/** Estimates in files, read from the disk whenever they are needed. */
export function fileSource(files: readonly File[]): EstimateSource {
  const chosen = files.filter(({ name }) => name.toLowerCase().endsWith('.json'));
  const title = chosen.length === 1 ? chosen[0]!.name : `${chosen.length} files`;
  return { title, count: chosen.length, read: (at) => chosen[at]!.text() };
}

/** The files that were dropped, those in folders among them. */
export async function droppedFiles(data: DataTransfer): Promise<File[]> {
  const entries = [...data.items].map((item) => item.webkitGetAsEntry());
  if (entries.every((entry) => entry === null)) return [...data.files];
  const files: File[] = [];
  for (const entry of entries) if (entry !== null) await collect(entry, files);
  return files;
}

async function collect(entry: FileSystemEntry, files: File[]): Promise<void> {
  if (entry.isFile) {
    files.push(await new Promise<File>((resolve, reject) => (entry as FileSystemFileEntry).file(resolve, reject)));
    return;
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  // A folder is told in parts, until an empty one comes.
  for (;;) {
    const part = await new Promise<FileSystemEntry[]>((resolve, reject) => reader.readEntries(resolve, reject));
    if (part.length === 0) return;
    for (const inside of part) await collect(inside, files);
  }
}
