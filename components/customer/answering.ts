import type { TemplateResult } from 'lit';
import type { Reply } from '../../src/share/reply.js';
import { sealReply } from '../../src/share/reply-text.js';
import { composeReply } from './compose-reply.js';
import { confirmStep, type Person, type PersonFaults, personFaults } from './confirm-step.js';
import type { CustomerView } from './customer-view.js';
import type { ReplyDetail } from './events.js';
import { type FullReader, inFull } from './full-reader.js';
import { postReply } from './post-reply.js';
import { qrPath } from './qr.js';
import type { Reader } from './reader.js';
import { messageText, type Sent, sendPane } from './send-pane.js';

/** What the steps after reading need of the page that they are a part of. */
export interface AnsweringPage {
  person(): Person;
  setPerson(person: Person): void;
  /** Of the sealed copy that is shown. */
  hash(): string;
  replyTo(): string;
  root(): ParentNode;
  dispatch(event: Event): boolean;
  /** Paints anew. @returns when it is painted */
  paint(): Promise<unknown>;
  go(step: 'read' | 'done'): Promise<void>;
  /** The answer is on its way: by the page, the server, a message, or copied to be put into one. */
  onSent(): void;
  onBroken(fault: unknown): void;
}

/** The answer: checked, confirmed, made into a text, and brought or sent to the shop. */
export class Answering {
  private faults: PersonFaults = {};
  private isSending = false;
  private reply: Reply | null = null;
  private sent: Sent | null = null;

  constructor(private readonly page: AnsweringPage) {}

  confirm(view: CustomerView, shown: Reader): TemplateResult {
    const { page } = this;
    const reader = inFull(shown);
    return confirmStep(view, reader, page.person(), this.faults, this.isSending, {
      fill: (field, value) => {
        page.setPerson({ ...page.person(), [field]: value });
        if (Object.keys(this.faults).length > 0) this.faults = personFaults(page.person(), reader.m);
      },
      change: () => void this.goBack(),
      send: () => void this.onConfirm(view, reader),
    });
  }

  done(view: CustomerView, shown: Reader): TemplateResult {
    const reader = inFull(shown);
    const sent = this.sent!;
    const message = messageText(sent.text, view, reader);
    const canShare = typeof navigator.share === 'function';
    return sendPane(sent, view, reader, canShare, {
      retry: () => void this.deliver(sent.text),
      share: () => void this.onShare(reader.m.subject(view.copy.estimate.number), message),
      sent: () => this.page.onSent(),
      copy: () => void this.onCopy(),
      showQr: () => this.onQr(),
      change: () => void this.goBack(),
    });
  }

  /** What is agreed to may be another sentence afterwards, so it is asked again. */
  private goBack(): Promise<void> {
    this.page.setPerson({ ...this.page.person(), agreed: false });
    this.faults = {};
    return this.page.go('read');
  }

  private async onConfirm(view: CustomerView, reader: FullReader): Promise<void> {
    const { page } = this;
    this.faults = personFaults(page.person(), reader.m);
    if (Object.keys(this.faults).length > 0) {
      await page.paint();
      page.root().querySelector<HTMLElement>('form [aria-invalid="true"]')?.focus();
      return;
    }
    try {
      this.reply = composeReply(view, reader, page.person(), page.hash());
      await this.deliver(await sealReply(this.reply));
    } catch (fault) {
      page.onBroken(fault);
    }
  }

  private async deliver(text: string): Promise<void> {
    const { page } = this;
    const detail: ReplyDetail = { reply: structuredClone(this.reply!), text };
    const isTaken = !page.dispatch(new CustomEvent('baysheet-reply', { detail, bubbles: true, composed: true, cancelable: true }));
    this.isSending = true;
    void page.paint();
    const address = page.replyTo();
    const state = isTaken ? 'handed' : address === '' ? 'own' : (await postReply(address, detail)) ? 'handed' : 'failed';
    this.isSending = false;
    this.sent = { text, state, copied: 'not', qr: null };
    if (state === 'handed') page.onSent();
    await page.go('done');
  }

  private async onShare(title: string, text: string): Promise<void> {
    await navigator.share({ title, text }).then(
      () => this.page.onSent(),
      () => undefined,
    );
  }

  private async onCopy(): Promise<void> {
    const isCopied = await navigator.clipboard?.writeText(this.sent!.text).then(
      () => true,
      () => false,
    );
    if (isCopied === true) this.page.onSent();
    this.setSent({ copied: isCopied === true ? 'yes' : 'failed' });
  }

  private onQr(): void {
    const { qr, text } = this.sent!;
    this.setSent(qr === null ? { copied: 'not', qr: qrPath(text) ?? 'too-long' } : { qr: null });
  }

  private setSent(change: Partial<Sent>): void {
    this.sent = { ...this.sent!, ...change };
    void this.page.paint();
  }
}
