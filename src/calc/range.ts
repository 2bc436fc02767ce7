/** The value itself, or a RangeError naming the argument when it is no finite number. */
export function finite(name: string, value: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`${name} must be a number, not ${value}.`);
  return value;
}

/** The value itself, or a RangeError naming the argument unless it is finite and 0 or more. */
export function notNegative(name: string, value: number): number {
  if (finite(name, value) < 0) {
    throw new RangeError(`${name} must be 0 or more, not ${value}.`);
  }
  return value;
}

/** The value itself, or a RangeError naming the argument unless it is finite and more than 0. */
export function positive(name: string, value: number): number {
  if (finite(name, value) <= 0) {
    throw new RangeError(`${name} must be more than 0, not ${value}.`);
  }
  return value;
}

/** The value itself, or a RangeError naming the argument unless it lies in 0..1. */
export function zeroToOne(name: string, value: number): number {
  if (notNegative(name, value) > 1) {
    throw new RangeError(`${name} must be between 0 and 1, not ${value}.`);
  }
  return value;
}

/** Absolute zero in °C. */
export const ABSOLUTE_ZERO_C = -273.15;

/** The value itself, or a RangeError naming the argument unless it is above absolute zero. */
export function temperatureC(name: string, value: number): number {
  if (finite(name, value) <= ABSOLUTE_ZERO_C) {
    throw new RangeError(`${name} must be above absolute zero, not ${value} °C.`);
  }
  return value;
}
