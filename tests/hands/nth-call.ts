/** What a device does to one call of its database. */
export type Fault = 'UnknownError' | 'AbortError' | 'QuotaExceededError' | 'no answer';

/** The calls that can go wrong: a transaction is opened, a record is put, a transaction is committed. */
export type Call = 'open' | 'put' | 'commit';

/** A database in which one call goes wrong. */
export interface NthCall {
  /** How many calls of the kind there were so far. */
  count: () => number;
  /** True once the fault was done. */
  isDone: () => boolean;
  /** Gives the answers that were held back. */
  answer: () => void;
  /** Takes the fault away. */
  restore: () => void;
}

/**
 * The `nth` call of one kind goes wrong from now on, in connections that are ours. An error is
 * thrown where the call is made, for a commit where it ends (Indexed Database API 3.0, W3C). A call
 * without an answer is done by the device, which does not tell: the worst case for doubles.
 */
export function failNth(
  call: Call,
  nth: number,
  fault: Fault,
  isOurs: (db: IDBDatabase) => boolean,
): NthCall {
  let count = 0;
  let isDone = false;
  const silenced = new WeakSet<EventTarget>();
  const held: (() => void)[] = [];
  const undo: (() => void)[] = [];
  const own = <T extends object, K extends keyof T>(target: T, key: K, next: T[K]) => {
    const before = Object.getOwnPropertyDescriptor(target, key);
    Object.defineProperty(target, key, { value: next, configurable: true, writable: true });
    undo.push(() => {
      if (before) Object.defineProperty(target, key, before);
      else delete target[key];
    });
  };
  const hits = () => {
    count += 1;
    if (count !== nth) return false;
    isDone = true;
    return true;
  };
  const error = () => new DOMException('The device says no.', fault);

  // Whoever waits for a silenced request or transaction hears nothing until `answer`.
  for (const kind of [IDBRequest.prototype, IDBTransaction.prototype] as EventTarget[]) {
    own(kind, 'addEventListener', function (this: EventTarget, type, listener, options) {
      const heard = (event: Event) => {
        const tell = () => {
          if (typeof listener === 'function') listener.call(this, event);
          else listener?.handleEvent(event);
        };
        const tx = this instanceof IDBRequest ? this.transaction : this;
        if (silenced.has(this) || (tx && silenced.has(tx))) held.push(tell);
        else tell();
      };
      EventTarget.prototype.addEventListener.call(this, type, heard, options);
    } as EventTarget['addEventListener']);
  }

  const { transaction } = IDBDatabase.prototype;
  own(IDBDatabase.prototype, 'transaction', function (this: IDBDatabase, ...args) {
    const isHit = call === 'open' && isOurs(this) && hits();
    if (isHit && fault !== 'no answer') throw error();
    const tx = transaction.apply(this, args);
    if (isHit) silenced.add(tx);
    return tx;
  });
  const { put } = IDBObjectStore.prototype;
  own(IDBObjectStore.prototype, 'put', function (this: IDBObjectStore, ...args) {
    const isHit = call === 'put' && isOurs(this.transaction.db) && hits();
    if (isHit && fault !== 'no answer') throw error();
    const request = put.apply(this, args);
    if (isHit) silenced.add(request);
    return request;
  });
  const { commit } = IDBTransaction.prototype;
  own(IDBTransaction.prototype, 'commit', function (this: IDBTransaction) {
    const isHit = call === 'commit' && isOurs(this.db) && hits();
    if (!isHit) return commit.call(this);
    if (fault === 'no answer') {
      silenced.add(this);
      return commit.call(this);
    }
    Object.defineProperty(this, 'error', { value: error() });
    return this.abort();
  });

  return {
    count: () => count,
    isDone: () => isDone,
    answer() {
      for (const tell of held.splice(0)) tell();
    },
    restore() {
      for (const back of undo.toReversed()) back();
    },
  };
}
