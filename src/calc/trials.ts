import type { Standing } from '#calc/log.ts';
import { all } from '#calc/said.ts';
import type { ShotId } from '#model/entry.ts';
import type { Trial } from '#model/trial.ts';

/** What a shot tried of a new mould, and whether it did. */
export type Tried = Readonly<Partial<Record<Trial, boolean>>>;

/** What was tried, by shot; the newest word on each thing counts. */
export function triedOf(lines: readonly Standing[]): Map<ShotId, Tried> {
  const tried = new Map<ShotId, Tried>();
  for (const { said } of all(lines, 'tried')) {
    const { [said.what]: _, ...others } = tried.get(said.shotId) ?? {};
    tried.set(said.shotId, said.did === null ? others : { ...others, [said.what]: said.did });
  }
  return tried;
}
