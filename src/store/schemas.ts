import * as z from 'zod/mini';
import { Change } from '#model/change.ts';
import { Draft } from '#model/draft.ts';
import { Entry } from '#model/entry.ts';
import { Colourway, Injector } from '#model/gear.ts';
import { Material } from '#model/material.ts';
import { Mix } from '#model/mix.ts';
import { Mould } from '#model/mould.ts';
import { Movement } from '#model/movement.ts';
import { Idea, Photo, PhotoBytes, Remark } from '#model/photo.ts';
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
  materials: Material,
  mixes: Mix,
  photos: Photo,
  'photo-bytes': PhotoBytes,
  remarks: Remark,
  ideas: Idea,
  changes: Change,
  movements: Movement,
} as const;

/** The value as its table may hold it. Throws a ZodError for what may not exist. */
export function checkedBy<K extends keyof typeof schemas>(
  table: K,
  value: unknown,
): z.infer<(typeof schemas)[K]> {
  return z.parse(schemas[table], value) as z.infer<(typeof schemas)[K]>;
}

/** Whether a table could hold this value. */
export function fits(table: string, value: unknown): boolean {
  return (
    Object.hasOwn(schemas, table) &&
    z.safeParse(schemas[table as keyof typeof schemas], value).success
  );
}

/** The fields of a record that its table could not hold; empty when it could, or when it is none. */
export function faultyFields(table: string, value: unknown): string[] {
  if (!Object.hasOwn(schemas, table)) return [];
  const found = z.safeParse(schemas[table as keyof typeof schemas], value);
  const fields = found.error?.issues.map(({ path }) => String(path[0] ?? '')) ?? [];
  return [...new Set(fields)].filter((field) => field !== '');
}
