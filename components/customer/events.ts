import type { Reply } from '../../src/share/reply.js';

/** The customer has confirmed an answer. Prevent the default to bring it to the shop yourself; else the customer is offered ways to send it. */
export interface ReplyDetail {
  readonly reply: Reply;
  /** The same as the text that the shop's sheet reads. */
  readonly text: string;
}

declare global {
  interface HTMLElementEventMap {
    'baysheet-reply': CustomEvent<ReplyDetail>;
  }
  interface DocumentEventMap {
    'baysheet-reply': CustomEvent<ReplyDetail>;
  }
}
