import * as z from 'zod/mini';

// Checks are walked, never compiled: the content policy forbids making code from text.
// This file is the first that any record file imports, so it is set before the first schema.
z.config({ jitless: true });

/** Milliseconds since 1970, UTC; from the year 2000 to 2100, so that a broken clock is noticed. */
export const Instant = z
  .int()
  .check(z.gte(946_684_800_000, 'This time is before the year 2000.'))
  .check(z.lte(4_102_444_800_000, 'This time is after the year 2100.'));
export type Instant = z.infer<typeof Instant>;

/** A UUIDv7 as text, made on the device. Ids are never added up and never put in order. */
export const RecordId = z.uuidv7();
export type RecordId = z.infer<typeof RecordId>;

/** Eight hex digits that tell one installation from another; never a person. */
export const DeviceId = z.string().check(z.regex(/^[0-9a-f]{8}$/, 'Not a device id.'));
export type DeviceId = z.infer<typeof DeviceId>;

/**
 * When a thing was written, as fixed-width text that sorts: wall clock (ms, 12 hex digits), counter
 * (4 hex digits), device. Two stamps are never equal, so "the newest wins" always has an answer.
 */
export const Stamp = z
  .string()
  .check(z.regex(/^[0-9a-f]{12}-[0-9a-f]{4}-[0-9a-f]{8}$/, 'Not a stamp.'));
export type Stamp = z.infer<typeof Stamp>;

/** A name as the person typed it: 1 to 60 characters after trimming. */
export const Name = z
  .string()
  .check(
    z.trim(),
    z.minLength(1, 'Give it a name.'),
    z.maxLength(60, 'Keep the name to 60 letters.'),
  );

/** What a person is called at the table: 1 to 12 characters after trimming, so that a key holds it. */
export const ShortName = z
  .string()
  .check(
    z.trim(),
    z.minLength(1, 'Give a name.'),
    z.maxLength(12, 'Keep it to 12 letters: it must fit a key.'),
  );

/** Free words of the person. */
export const Words = z.string().check(z.maxLength(2_000, 'Keep it to 2,000 letters.'));

/** A colour as `#rrggbb`. */
export const Swatch = z.string().check(z.regex(/^#[0-9a-f]{6}$/i, 'Write the colour as #rrggbb.'));

/** Temperature in °C that a shop can meet: a frosty shed to a burnt pot. */
export const TempC = z
  .number()
  .check(z.gte(-40, 'Colder than −40 °C cannot be.'), z.lte(400, 'Hotter than 400 °C cannot be.'));

/** A volume in mL, above 0 and at most 100 litres. */
export const VolumeMl = z
  .number()
  .check(z.gt(0, 'It must hold something.'), z.lte(100_000, 'More than 100 litres cannot be.'));

/** What every head carries beside its own fields. */
export const headParts = {
  /** The device that wrote the head last. */
  device: DeviceId,
  /** Per field, when it was last set: two devices that change two fields both win. */
  stamps: z.record(z.string(), Stamp),
  createdAt: Instant,
  /** Set instead of removing, so that a merge does not bring the record back. */
  deletedAt: z.nullable(Instant),
};
