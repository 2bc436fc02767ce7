import * as z from 'zod/mini';
import { Draft } from '#model/draft.ts';
import { Entry } from '#model/entry.ts';
import { Colourway, Injector } from '#model/gear.ts';
import { Mould } from '#model/mould.ts';
import { SealedSession } from '#model/session.ts';
import { Settings } from '#model/settings.ts';

const schemas = {
  moulds: Mould,
  injectors: Injector,
  colourways: Colourway,
  settings: Settings,
  entries: Entry,
  sealed: SealedSession,
  drafts: Draft,
} as const;

/** The value as its table may hold it. Throws a ZodError for what may not exist. */
export function checkedBy<K extends keyof typeof schemas>(
  table: K,
  value: unknown,
): z.infer<(typeof schemas)[K]> {
  return z.parse(schemas[table], value) as z.infer<(typeof schemas)[K]>;
}
