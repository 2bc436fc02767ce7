import * as z from 'zod/mini';
import { type Injector, injectorFacts } from '#model/gear.ts';
import { type Refusals, readForm } from '#screens/form.ts';
import { numberFrom, volumeFrom, volumeText } from '#screens/number-text.ts';
import type { VolumeUnit } from '#screens/volumes.ts';
import type { FactsOf } from '#store/heads.ts';

/** What the form holds while it is typed. */
export interface TypedInjector extends Record<string, unknown> {
  name: string;
  capacity: string;
  boreMm: string;
  isTwin: boolean;
}

const facts = z.object(injectorFacts);

/** The form of an injector, or of a new one. */
export function typedInjector(injector: Injector | null, unit: VolumeUnit): TypedInjector {
  return {
    name: injector?.name ?? '',
    capacity: injector ? volumeText(injector.capacityMl, unit) : '',
    boreMm: injector?.boreMm == null ? '' : String(injector.boreMm),
    isTwin: injector?.isTwin ?? false,
  };
}

/**
 * The injector that was typed, or a sentence for each field that is not understood or cannot be. A
 * capacity whose text was not touched keeps its exact volume.
 */
export function injectorFrom(
  typed: TypedInjector,
  injector: Injector | null,
  unit: VolumeUnit,
): { value: FactsOf<'injectors'>; refusals: null } | { value: null; refusals: Refusals } {
  const unread: Refusals = {};
  const isUntouched = injector !== null && typed.capacity === volumeText(injector.capacityMl, unit);
  const capacityMl = isUntouched ? injector.capacityMl : volumeFrom(typed.capacity, unit);
  if (capacityMl === null) unread.capacity = 'Write a number, like 4 or 4.5.';
  const boreMm = typed.boreMm.trim() === '' ? null : numberFrom(typed.boreMm);
  if (boreMm === null && typed.boreMm.trim() !== '') {
    unread.boreMm = 'Write a number, like 38 or 38.1. Or leave it empty.';
  }
  const read = readForm(facts, { name: typed.name, capacityMl, boreMm, isTwin: typed.isTwin });
  const { capacityMl: capacity, ...others } = read.refusals ?? {};
  const refusals = { ...others, ...(capacity ? { capacity } : {}), ...unread };
  if (!read.value || Object.keys(refusals).length > 0) return { value: null, refusals };
  return { value: read.value, refusals: null };
}
