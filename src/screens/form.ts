import { useState } from 'preact/hooks';
import * as z from 'zod/mini';

/** The first thing that is wrong with each field, by the field's name. */
export type Refusals = Record<string, string>;

/** What a form holds while it is typed, with the refusals of the last try to save. */
export function useForm<Typed extends Record<string, unknown>>(first: Typed) {
  const [typed, setTyped] = useState(first);
  const [refusals, setRefusals] = useState<Refusals>({});
  const change = (part: Partial<Typed>) => {
    setTyped((now) => ({ ...now, ...part }));
    setRefusals((now) =>
      Object.fromEntries(Object.entries(now).filter(([field]) => !(field in part))),
    );
  };
  return { typed, change, refusals, setRefusals };
}

/** The value a schema reads, or a sentence for each field that it refuses. */
export function readForm<T>(
  schema: z.ZodMiniType<T>,
  value: unknown,
): { value: T; refusals: null } | { value: null; refusals: Refusals } {
  const read = z.safeParse(schema, value);
  if (read.success) return { value: read.data, refusals: null };
  const refusals: Refusals = {};
  for (const issue of read.error.issues) {
    const field = issue.path.join('.') || 'form';
    if (!Object.hasOwn(refusals, field)) refusals[field] = sentenceOf(issue);
  }
  return { value: null, refusals };
}

function sentenceOf(issue: { code?: string | undefined; message: string }): string {
  const isOwn = /[.]$/.test(issue.message);
  return isOwn ? issue.message : 'This does not fit here. Look at it again.';
}
