/**
 * Why something cannot be shared. Only those who make a link or an answer meet it; opening one never throws. `code` is
 * stable and meant for programs, the message is a sentence for the person at the screen.
 */
export class ShareFault extends Error {
  override readonly name = 'ShareFault';

  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}
