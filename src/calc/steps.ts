/** What a sum gives that can also be worked out in steps, all of them in one go. */
export function endOf<T>(steps: Generator<void, T>): T {
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}
