import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';

/** What a part on the screen waits for now. */
const waitedFor = new Set<Promise<unknown>>();

/** Resolves when no part on the screen waits for its file: what is fetched ahead would only be in its way. */
export async function whenNoneWaits(): Promise<void> {
  while (waitedFor.size > 0) await Promise.allSettled(waitedFor);
}

/** A busy device may fail to hand out a file that it has: it is asked again after so long. */
const pausesMs = [300, 1_500, 5_000] as const;

/** What `load` gives, at the first try or a later one. Rejects as the last one does. */
async function loaded<T>(load: () => Promise<T>): Promise<T> {
  for (const pauseMs of pausesMs) {
    try {
      return await load();
    } catch {
      await new Promise((resolve) => setTimeout(resolve, pauseMs));
    }
  }
  return await load();
}

/** A part of the app that is fetched after the first paint. Everything is stored for offline use, so it is there. */
export function late<Props extends object>(
  load: () => Promise<ComponentType<Props>>,
): ComponentType<Props> & { load: () => void } {
  let loading: Promise<ComponentType<Props>> | null = null;
  let ready: ComponentType<Props> | null = null;
  const fetchOnce = () => {
    loading ??= loaded(load).then(
      (found) => {
        ready = found;
        return found;
      },
      (error: unknown) => {
        // The next one to need it tries again: the network may be back.
        loading = null;
        throw error;
      },
    );
    return loading;
  };
  function Late(props: Props) {
    const [Screen, setScreen] = useState<ComponentType<Props> | null>(() => ready);
    const [failure, setFailure] = useState<unknown>();
    useEffect(() => {
      if (Screen) return;
      const wait = fetchOnce().then((found) => setScreen(() => found), setFailure);
      waitedFor.add(wait);
      void wait.finally(() => waitedFor.delete(wait));
    }, [Screen]);
    if (failure) throw failure;
    return Screen ? <Screen {...props} /> : null;
  }
  // A chunk of this version may be gone after an update: fetched early, it is kept.
  Late.load = () => void fetchOnce().catch(() => {});
  return Late;
}
