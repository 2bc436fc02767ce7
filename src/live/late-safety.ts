import type { Safety, SafetyState } from '#live/safety.ts';

/** Before anything was looked at. */
export const unknownSafety: SafetyState = {
  copy: undefined,
  trouble: null,
  untold: null,
  isPromised: undefined,
  shouldAsk: false,
  isCramped: false,
};

/** A safety that is fetched when it is first asked for something: the first paint does without. */
export function lateSafety(load: () => Promise<Safety>): Safety {
  const hearers = new Set<() => void>();
  let found: Safety | null = null;
  let loading: Promise<Safety> | null = null;
  const tellAll = () => {
    for (const tell of hearers) tell();
  };
  const loaded = () => {
    loading ??= load().then(
      (safety) => {
        found = safety;
        safety.hear(tellAll);
        tellAll();
        return safety;
      },
      (error: unknown) => {
        // The next one to need it tries again.
        loading = null;
        throw error;
      },
    );
    return loading;
  };
  return {
    state: () => found?.state() ?? unknownSafety,
    hear(tell) {
      hearers.add(tell);
      return () => hearers.delete(tell);
    },
    start: async () => (await loaded()).start(),
    check: async () => (await loaded()).check(),
    makeRoom: async () => (await loaded()).makeRoom(),
    hasRoom: async () => (await loaded()).hasRoom(),
    look: async () => (await loaded()).look(),
    forget: async () => (await loaded()).forget(),
    ask: async () => (await loaded()).ask(),
    noted: () => found?.noted(),
    skipAsking: () => found?.skipAsking(),
  };
}
