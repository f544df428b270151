import { printBlock } from './clipboard.js';
import { clearEdits, fillDownEdits, fillEdits, pasteEdits, sameEdits } from './edits.js';
import type { BlockEdits } from './edits.js';
import type { Surface } from './library.js';
import type { Block, SheetModel } from './model.js';
import type { EditSource, SheetEdit } from './sheet.js';
import { sizeOf, told, toldPaste } from './words.js';

export interface GestureOptions {
  readonly model: SheetModel;
  readonly surface: Surface;
  edit(edits: readonly SheetEdit[], source: EditSource): void;
  announce(words: string): void;
}

/** What is done to a whole block at once: each is one call of `edit`, and so one step to undo. */
export class Gestures {
  private readonly model: SheetModel;
  private readonly surface: Surface;

  constructor(private readonly options: GestureOptions) {
    this.model = options.model;
    this.surface = options.surface;
  }

  /** The selected block as clipboard text. */
  copy(): string | null {
    const block = this.surface.selection()?.block;
    if (!block) return null;
    this.options.announce(`Copied ${sizeOf(block)}.`);
    return printBlock(this.model, block);
  }

  clear(source: 'clear' | 'cut'): void {
    const block = this.surface.selection()?.block;
    if (block) this.apply(clearEdits(this.model, block), source, source === 'cut' ? 'Cut' : 'Cleared');
  }

  paste(cells: readonly (readonly string[])[]): void {
    const block = this.surface.selection()?.block;
    if (!block) return;
    const paste = pasteEdits(this.model, block, cells);
    this.send(paste, 'paste', toldPaste(paste));
    // The owner may have made the new rows already; select as much of the block as there is.
    const { area } = paste;
    const bottom = Math.min(area.bottom, this.model.rows.length - 1);
    this.surface.select({ row: area.top, column: area.left }, { row: Math.max(area.top, bottom), column: area.right }, false);
  }

  fillDown(): void {
    const block = this.surface.selection()?.block;
    if (block) this.apply(fillDownEdits(this.model, block), 'fill', 'Filled');
  }

  /** The fill handle was drawn from the selected block over `target`. */
  fillOver(target: Block): void {
    const block = this.surface.selection()?.block;
    if (block) this.apply(fillEdits(this.model, block, target), 'fill', 'Filled');
  }

  /** The same entry in every selected cell. */
  enterAll(text: string): void {
    const block = this.surface.selection()?.block;
    if (block) this.apply(sameEdits(this.model, block, text), 'type', 'Entered in');
  }

  private apply(edits: BlockEdits, source: EditSource, done: string): void {
    this.send(edits, source, told(done, edits));
  }

  private send(edits: BlockEdits, source: EditSource, words: string): void {
    if (edits.edits.length === 0 && edits.skipped === 0) return;
    // First what was done, then what the owner says of it.
    this.options.announce(words);
    if (edits.edits.length > 0) this.options.edit(edits.edits, source);
  }
}
