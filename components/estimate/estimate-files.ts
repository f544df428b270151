import type { LitElement } from 'lit';
import type { Estimate } from '../../src/documents/estimate.js';
import type { Problem } from '../../src/documents/problem.js';
import { send } from '../events.js';
import type { PhotoKeeper } from './evidence-keeper.js';
import { downloadEstimate } from './files.js';
import { readEstimateFile } from './read-estimate-file.js';

export interface EstimateFileTasks {
  /** The estimate on the screen. */
  estimate(): Estimate;
  /** Whether there is a store, which then holds the photos. */
  isKept(): boolean;
  /** A file could be read, or could not and why. */
  told(problems: readonly Problem[]): void;
  /** Puts an estimate from a file on the screen. */
  show(estimate: Estimate, name: string): void;
  announce(text: string): void;
}

/** The estimate as a file: photos are put into it on the way out, and taken out of it on the way in. */
export class EstimateFiles {
  constructor(
    private readonly host: LitElement,
    private readonly photos: PhotoKeeper,
    private readonly tasks: EstimateFileTasks,
  ) {}

  /** The page saves it; where it does not, it is offered as a file. */
  async save(): Promise<void> {
    if (send(this.host, 'baysheet-save', { estimate: structuredClone(this.tasks.estimate()) })) await this.offer();
  }

  async offer(): Promise<void> {
    const whole = await this.photos.embed(this.tasks.estimate());
    downloadEstimate(whole.estimate, this.host.ownerDocument);
    if (whole.missing > 0)
      this.tasks.announce(`${whole.missing} of its photos are not kept in this browser, so the file holds only their names.`);
  }

  /** A person has chosen a file. */
  choose(event: Event): void {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (file === undefined) return;
    void this.open(file);
    input.value = '';
  }

  async open(file: File): Promise<void> {
    const read = await readEstimateFile(file);
    this.tasks.told(read.ok ? [] : read.problems);
    if (!read.ok) return;
    const { estimate, fault } = this.tasks.isKept() ? await this.photos.takeOut(read.value) : { estimate: read.value, fault: '' };
    this.tasks.show(estimate, file.name);
    if (fault !== '') this.tasks.announce(`Photos stay in the estimate. ${fault}`);
  }
}
