import { define } from '../define.js';
import { GoalPane } from './goal-pane.js';
import { TimePane } from './time-pane.js';
import { WhatIfDetails } from './what-if-details.js';
import { WhatIfPane } from './what-if-pane.js';

/** Registers `<baysheet-what-if>` and what it is made of. Called when one is first put on a page. */
export function defineWhatIfElements(): void {
  define('baysheet-what-if-details', WhatIfDetails);
  define('baysheet-goal', GoalPane);
  define('baysheet-time', TimePane);
  define('baysheet-what-if', WhatIfPane);
}
