/** The connection to the cluster and its bucket, opened when first asked for, and what faults of either mean. */
import { jetstreamManager, JetStreamApiError, type JetStreamManager } from '@nats-io/jetstream';
import { type KV, Kvm } from '@nats-io/kv';
import { type ConnectionOptions, type NatsConnection, wsconnect } from '@nats-io/nats-core';
import { StorageFault } from './port.js';

export interface ClusterOptions {
  /** WebSocket addresses of the servers, `wss://…` (or `ws://…` where there is no TLS). */
  readonly servers: readonly string[];
  /** The key-value bucket; made where it is not there yet. */
  readonly bucket: string;
  /** On how many servers each text is kept: 1, 3 or 5. */
  readonly replicas: number;
  /** Most bytes that the bucket may hold; no limit without it. */
  readonly maxBytes?: number;
  /** Sign-in and anything else that the client library takes: `user` and `pass`, `token`, `authenticator`. */
  readonly connection?: Partial<ConnectionOptions>;
}

export interface Bucket {
  readonly kv: KV;
  readonly manager: JetStreamManager;
  /** Bytes that one message may have. */
  readonly maxPayload: number;
  readonly name: string;
}

export class ClusterConnection {
  private opening: Promise<{ connection: NatsConnection; bucket: Bucket }> | null = null;
  private isClosed = false;

  constructor(private readonly options: ClusterOptions) {}

  async bucket(): Promise<Bucket> {
    if (this.isClosed) throw new StorageFault('fault', 'This store was closed. Open it anew.');
    const opening = this.opening ?? this.open();
    this.opening = opening;
    try {
      return (await opening).bucket;
    } catch (error) {
      // The next one tries anew.
      if (this.opening === opening) this.opening = null;
      throw error;
    }
  }

  close(): void {
    this.isClosed = true;
    void this.opening?.then(
      ({ connection }) => connection.close(),
      () => undefined,
    );
    this.opening = null;
  }

  private async open(): Promise<{ connection: NatsConnection; bucket: Bucket }> {
    const { servers, bucket: name, replicas, maxBytes } = this.options;
    const connection = await wsconnect({
      name: 'baysheet',
      timeout: 4000,
      reconnectTimeWait: 250,
      // A connection that only seems to be there, as after sleep, is found out within some ten seconds.
      pingInterval: 4000,
      maxPingOut: 2,
      // Addresses that servers tell of each other are often not the ones that a page may ask.
      ignoreClusterUpdates: true,
      ...this.options.connection,
      servers: [...servers],
      maxReconnectAttempts: -1,
    });
    // Refused for good, such as by a sign-in that has run out: the next request says so when it connects.
    void connection.closed().then(() => {
      this.opening = null;
    });
    try {
      const manager = await jetstreamManager(connection, { timeout: 2500 });
      const kv = await new Kvm(manager.jetstream()).create(name, {
        replicas,
        history: 1,
        // Else a server that lags may answer, and not know of what was just put.
        allow_direct: false,
        ...(maxBytes === undefined ? {} : { max_bytes: maxBytes }),
      });
      await settle(manager, name);
      return { connection, bucket: { kv, manager, maxPayload: connection.info?.max_payload ?? 1_048_576, name } };
    } catch (error) {
      void connection.close();
      throw error;
    }
  }
}

/**
 * Waits until an empty bucket has a leader, is on all its servers and has stayed the same for a moment. Two that make it
 * at once may be told of two, of which the second replaces the first: what was put meanwhile would be gone.
 */
async function settle(manager: JetStreamManager, name: string): Promise<void> {
  for (let before: string | null = null; ;) {
    const { created, state, cluster } = await manager.streams.info(`KV_${name}`);
    if (state.last_seq > 0) return;
    const isWhole = cluster === undefined || (cluster.leader !== undefined && (cluster.replicas ?? []).every(({ current }) => current));
    const seen = isWhole ? `${created} ${cluster?.leader}` : null;
    if (seen !== null && seen === before) return;
    before = seen;
    await new Promise((resolve) => setTimeout(resolve, SETTLED));
  }
}

/** In milliseconds. */
const SETTLED = 500;

/** Codes of JetStream's own errors, as its servers document them. */
const NO_ROOM = [10023, 10026, 10028, 10047, 10054, 10077, 10122];
const TOO_FEW_SERVERS = [10005, 10074];
const NOT_ALLOWED = ['AuthorizationError', 'UserAuthenticationExpiredError', 'PermissionViolationError'];
/**
 * What may pass: no leader just now, no connection, no answer. That JetStream is not enabled is also said where the leader
 * of a stream is not there yet.
 */
const PASSING = [
  'TimeoutError',
  'NoRespondersError',
  'RequestError',
  'ConnectionError',
  'ClosedConnectionError',
  'DrainingConnectionError',
  'JetStreamNotEnabled',
];

/** A fault as the person who works with it reads it; `what` begins it: “The estimate “7” was not saved”. */
export function clusterFault(error: unknown, what: string): StorageFault {
  if (error instanceof StorageFault) return error;
  const names = causes(error).map(({ name }) => name);
  const reason = error instanceof Error ? error.message : String(error);
  if (names.some((name) => NOT_ALLOWED.includes(name))) {
    return new StorageFault('denied', `${what}: the cluster does not allow it (${reason}). Sign in anew, or ask whoever looks after it.`, {
      cause: error,
    });
  }
  if (error instanceof JetStreamApiError) {
    if (NO_ROOM.includes(error.code)) {
      return new StorageFault(
        'full',
        `${what}: the cluster has no more room (${reason}). Save the work as a file and tell whoever looks after the cluster.`,
        { cause: error },
      );
    }
    if (TOO_FEW_SERVERS.includes(error.code)) {
      return new StorageFault(
        'fault',
        `${what}: the cluster has fewer servers than copies were asked for (${reason}). Start the others, or ask for fewer replicas.`,
        { cause: error },
      );
    }
    // 503: the servers are electing a leader, or too few of them are there to have one.
    if (error.status === 503 || error.code === 10008) return away(what, error);
  }
  if (names.some((name) => PASSING.includes(name))) return away(what, error);
  return new StorageFault('fault', `${what}. The cluster says: ${reason}. Tell whoever looks after it.`, { cause: error });
}

function away(what: string, cause: unknown): StorageFault {
  return new StorageFault(
    'away',
    `${what}: the cluster cannot be reached, or too few of its servers are there. It is tried again, or try again later.`,
    { cause },
  );
}

/** An error and what caused it, outermost first. */
function causes(error: unknown): Error[] {
  const found: Error[] = [];
  for (let one = error; one instanceof Error && found.length < 5; one = one.cause) found.push(one);
  return found;
}
