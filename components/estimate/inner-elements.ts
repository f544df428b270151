import { define } from '../define.js';
import { AuthorisationDesk } from './authorisation-desk.js';
import { AuthorisationPane } from './authorisation-pane.js';
import { CodesPane } from './codes-pane.js';
import { ConsentDialog } from './consent-dialog.js';
import { EvidencePane } from './evidence-pane.js';
import { JobForm } from './job-form.js';
import { KeepingCompare } from './keeping-compare.js';
import { KeepingDesk } from './keeping-desk.js';
import { KeepingList } from './keeping-list.js';
import { LinesTable } from './lines-table.js';
import { PartsRunDialog } from './parts-run-dialog.js';
import { PriceAgainDialog } from './quoted-dialog.js';
import { QuotedNote } from './quoted-note.js';
import { ReplyDialog } from './reply-dialog.js';
import { RoundsPane } from './rounds-pane.js';
import { ShareDialog } from './share-dialog.js';
import { TeardownPicture } from './teardown-picture.js';
import { TotalsPane } from './totals-pane.js';
import { WorkDesk } from './work-desk.js';
import { WorkSheetDialog } from './work-sheet-dialog.js';
import { WorkSheetPaper } from './work-sheet-paper.js';
import { WriteUpDialog } from './write-up-dialog.js';

/** Registers the elements that `<baysheet-estimate>` is made of. Called when one is first put on a page, so that importing the class alone registers nothing. */
export function defineInnerElements(): void {
  define('baysheet-authorisation', AuthorisationPane);
  define('baysheet-authorisation-desk', AuthorisationDesk);
  define('baysheet-consent', ConsentDialog);
  define('baysheet-price-again', PriceAgainDialog);
  define('baysheet-quoted', QuotedNote);
  define('baysheet-reply', ReplyDialog);
  define('baysheet-share', ShareDialog);
  define('baysheet-codes', CodesPane);
  define('baysheet-evidence', EvidencePane);
  define('baysheet-job', JobForm);
  define('baysheet-rounds', RoundsPane);
  define('baysheet-compare', KeepingCompare);
  define('baysheet-estimates', KeepingList);
  define('baysheet-keeping', KeepingDesk);
  define('baysheet-lines-table', LinesTable);
  define('baysheet-totals', TotalsPane);
  define('baysheet-teardown', TeardownPicture);
  define('baysheet-work-desk', WorkDesk);
  define('baysheet-parts-run', PartsRunDialog);
  define('baysheet-work-sheet', WorkSheetPaper);
  define('baysheet-work-sheet-dialog', WorkSheetDialog);
  define('baysheet-write-up', WriteUpDialog);
}
