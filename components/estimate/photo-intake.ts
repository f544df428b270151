import type { Finding } from '../../src/documents/estimate.js';
import { findingUnder, holdsFiles, pastedPictures } from './evidence-drop.js';
import type { EvidencePane } from './evidence-pane.js';
import { SPARE_FINDING } from './finding-columns.js';

export interface PhotoIntakeOptions {
  findings(): readonly Finding[];
  /** Where the photos of the chosen finding go. */
  evidence(): EvidencePane | null;
  /** Chooses a finding in its grid; resolves when its evidence is shown. */
  choose(finding: Finding): Promise<unknown>;
  announce(text: string): void;
}

/** Photos that are pasted into the findings or dropped on them belong to a finding. */
export class PhotoIntake {
  /** The finding that was chosen last in its grid. */
  chosen: string | null = null;

  constructor(private readonly options: PhotoIntakeOptions) {}

  /** A row of the grid is chosen; the one that waits for the next finding has none. */
  chooseRow(row: string): void {
    this.chosen = row === SPARE_FINDING ? null : row.slice('findings:'.length);
  }

  /** Before the grid sees it: a picture belongs to the finding that is chosen. */
  readonly onPaste = {
    capture: true,
    handleEvent: (event: ClipboardEvent): void => {
      const pictures = pastedPictures(event);
      if (pictures.length === 0) return;
      event.preventDefault();
      event.stopPropagation();
      if (this.chosen === null) this.options.announce('Choose a finding first, then paste the photo.');
      else void this.options.evidence()?.add(pictures);
    },
  };

  /** A file that nobody takes would be opened instead of the page, with all that is on it. */
  readonly onDragOver = (event: DragEvent): void => {
    if (holdsFiles(event)) event.preventDefault();
  };

  /** A photo that is dropped on a row belongs to the finding in it. */
  readonly onDrop = async (event: DragEvent): Promise<void> => {
    if (!holdsFiles(event)) return;
    event.preventDefault();
    const files = [...event.dataTransfer!.files];
    const finding = findingUnder(event, this.options.findings());
    if (finding === null) {
      this.options.announce('Drop a photo on the finding that it belongs to.');
      return;
    }
    await this.options.choose(finding);
    await this.options.evidence()?.add(files);
  };
}
