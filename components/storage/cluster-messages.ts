/** Everything that lies under some keys of the bucket, and everything that comes there, each message once and in order. */
import { type Consumer, type ConsumerMessages, DeliverPolicy } from '@nats-io/jetstream';
import type { Bucket } from './cluster-connection.js';
import { StorageFault } from './port.js';

export interface BucketMessage {
  readonly key: string;
  readonly text: string;
  readonly sequence: number;
  readonly time: Date;
}

/** A server that has nothing to tell says so this often, in milliseconds; where that fails to come another is asked. */
const SIGN_OF_LIFE = 2000;

/**
 * All messages whose keys match (`*` for one part of a key), in the order in which they were put.
 *
 * @throws StorageFault `away` where the server that told them has gone silent: what came until then may not be all
 */
export async function allMessages(bucket: Bucket, keys: string): Promise<BucketMessage[]> {
  const found: BucketMessage[] = [];
  const consumer = await consumerOf(bucket, keys, 0);
  try {
    if ((await consumer.info(true)).num_pending === 0) return found;
    const messages = await consume(consumer);
    for await (const message of messages) {
      found.push(readMessage(bucket, message));
      if (message.info.pending === 0) return found;
    }
  } finally {
    consumer.delete().catch(() => undefined);
  }
  throw new StorageFault('away', 'The cluster fell silent in the middle of a list. It is tried again, or try again later.');
}

/**
 * Messages whose keys match and that come after a sequence, until its server falls silent or `started` is told to stop.
 */
export async function* messagesAfter(
  bucket: Bucket,
  keys: string,
  sequence: number,
  started: (stop: () => void) => void,
): AsyncGenerator<BucketMessage> {
  const consumer = await consumerOf(bucket, keys, sequence + 1);
  try {
    const messages = await consume(consumer);
    started(() => messages.stop());
    for await (const message of messages) yield readMessage(bucket, message);
  } finally {
    consumer.delete().catch(() => undefined);
  }
}

function consumerOf({ manager, name }: Bucket, keys: string, from: number): Promise<Consumer> {
  return manager.jetstream().consumers.get(`KV_${name}`, {
    filter_subjects: `$KV.${name}.${keys}`,
    ...(from > 0 ? { deliver_policy: DeliverPolicy.StartSequence, opt_start_seq: from } : { deliver_policy: DeliverPolicy.All }),
  });
}

async function consume(consumer: Consumer): Promise<ConsumerMessages> {
  const messages = await consumer.consume({ expires: 5 * SIGN_OF_LIFE, idle_heartbeat: SIGN_OF_LIFE });
  void stopWhenSilent(messages);
  return messages;
}

async function stopWhenSilent(messages: ConsumerMessages): Promise<void> {
  for await (const { type } of messages.status()) {
    if (type === 'heartbeats_missed' || type === 'consumer_deleted') messages.stop();
  }
}

type Message = ConsumerMessages extends AsyncIterable<infer M> ? M : never;

function readMessage({ name }: Bucket, message: Message): BucketMessage {
  return { key: message.subject.slice(`$KV.${name}.`.length), text: message.string(), sequence: message.seq, time: message.time };
}
