import type { Table } from '#store/db.ts';

type Hear = (tables: readonly Table[]) => void;

const hearers = new Set<Hear>();
let channel: BroadcastChannel | null = null;

/** Tells this window and, through the channel, every other one which tables were written. */
export function announce(...tables: Table[]): void {
  for (const hear of hearers) hear(tables);
  channel?.postMessage(tables);
}

/** Calls back after each write, here or in another window, until the returned function is called. */
export function subscribe(hear: Hear): () => void {
  hearers.add(hear);
  return () => hearers.delete(hear);
}

/** Joins the windows that share the database `name`; returns how to leave. */
export function joinWindows(name: string): () => void {
  channel = new BroadcastChannel(`${name}-written`);
  channel.onmessage = (event: MessageEvent<Table[]>) => {
    for (const hear of hearers) hear(event.data);
  };
  return () => {
    channel?.close();
    channel = null;
  };
}
