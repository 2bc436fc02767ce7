import { useEffect, useRef, useState } from 'preact/hooks';
import * as z from 'zod/mini';

/** The first thing that is wrong with each field, by the field's name. */
export type Refusals = Record<string, string>;

/** What a form holds while it is typed, with the refusals of the last try to save. */
export function useForm<Typed extends Record<string, unknown>>(first: Typed) {
  const [typed, setTyped] = useState(first);
  const [refusals, setRefusals] = useState<Refusals>({});
  const [tries, setTries] = useState(0);
  const form = useRef<HTMLFormElement>(null);
  const change = (part: Partial<Typed>) => {
    setTyped((now) => ({ ...now, ...part }));
    setRefusals((now) =>
      Object.fromEntries(Object.entries(now).filter(([field]) => !(field in part))),
    );
  };
  const refuse = (all: Refusals) => {
    setRefusals(all);
    setTries((before) => before + 1);
  };
  useEffect(() => {
    if (tries > 0) goToFirst(form.current);
  }, [tries]);
  return { typed, change, refusals, refuse, form };
}

/** The first field that was refused may be off the glass: the eye and the keyboard go there. */
function goToFirst(form: HTMLFormElement | null): void {
  const first = form?.querySelector('[aria-invalid="true"], [role="alert"]');
  first?.scrollIntoView({ block: 'center' });
  if (first instanceof HTMLInputElement) first.focus({ preventScroll: true });
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
