/** What a sum gives that is worked out in steps, with the page drawing in between. */
export async function inSteps<T>(steps: Generator<void, T>): Promise<T>;
/** The same, given up once `isOver` says that nobody waits for it: undefined. */
export async function inSteps<T>(
  steps: Generator<void, T>,
  isOver: () => boolean,
): Promise<T | undefined>;
export async function inSteps<T>(
  steps: Generator<void, T>,
  isOver: () => boolean = () => false,
): Promise<T | undefined> {
  let step = steps.next();
  while (!step.done) {
    await breath();
    if (isOver()) return undefined;
    step = steps.next();
  }
  return step.value;
}

/**
 * Lets the page draw and hear presses before the next piece of a long sum. A message, not a timer:
 * a browser makes the fifth timer in a row wait 4 ms, which a sum of many pieces would pay for each.
 */
export function breath(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}
