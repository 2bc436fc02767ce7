// Reads a copy of the logbook with nothing of the app: what DEVELOPERS.md says of the file is enough.
//   node demo/read-backup.mjs copy.warmshot ["six words of it"]           what it holds
//   node demo/read-backup.mjs copy.warmshot "" --records                  every record, one a line
import { createDecipheriv, createHash, hkdfSync, pbkdf2Sync } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';

const [path, words = '', option] = process.argv.slice(2);
if (!path) {
  console.error('Give it a file: node demo/read-backup.mjs copy.warmshot ["the words"]');
  process.exit(2);
}

/** Stops with one sentence. */
function stop(sentence) {
  console.error(sentence);
  process.exit(1);
}

const file = readFileSync(path);
if (file.subarray(0, 8).toString('latin1') !== 'WARMSHOT') stop('This is no copy of a logbook.');
if (file[8] !== 1) stop(`This is format ${file[8]}; this reader knows 1.`);
const headerEnd = 13 + file.readUInt32BE(9);
const header = JSON.parse(file.subarray(13, headerEnd).toString('utf8'));
const sum = file.readUInt32BE(headerEnd);
if (crcOf(file.subarray(0, headerEnd)) !== sum) stop('The head of the file is damaged.');
const headerHash = sha256(file.subarray(0, headerEnd + 4));

let key = null;
if (header.lock) {
  const { rounds, salt, check } = header.lock;
  const phrase = words.normalize('NFKC').trim().replace(/\s+/g, ' ');
  const master = pbkdf2Sync(phrase, Buffer.from(salt, 'hex'), rounds, 32, 'sha256');
  const part = (info, length) => Buffer.from(hkdfSync('sha256', master, '', info, length));
  if (part('warmshot check', 16).toString('hex') !== check) stop('These are not its words.');
  key = part('warmshot contents', 32);
}

const packed = [];
let at = headerEnd + 4;
for (let index = 0; ; index += 1) {
  if (at + 4 > file.length) stop('The file is cut short.');
  const said = file.readUInt32BE(at);
  const isLast = said >= 0x80000000;
  const closed = file.subarray(at + 4, at + 4 + (said % 0x80000000));
  if (closed.length < said % 0x80000000) stop('The file is cut short.');
  packed.push(opened(closed, index, isLast));
  at += 4 + closed.length;
  if (isLast) break;
}
if (at !== file.length) stop('Something follows the last chunk.');

const text = gunzipSync(Buffer.concat(packed));
const counts = {};
let end = null;
for (let from = 0; from < text.length; ) {
  const lineEnd = text.indexOf(0x0a, from);
  const line = JSON.parse(text.subarray(from, lineEnd).toString('utf8'));
  from = lineEnd + 1 + (line.size === undefined ? 0 : line.size + 1);
  if (line.end) end = line.end;
  else {
    counts[line.table] = (counts[line.table] ?? 0) + 1;
    if (option === '--records') console.log(JSON.stringify(line));
  }
}
for (const [table, count] of Object.entries(end ?? {})) {
  if ((counts[table] ?? 0) !== count) stop(`It should hold ${count} of ${table}.`);
}
if (!end) stop('The end is missing.');
if (option !== '--records') {
  console.log(`Written ${new Date(header.at).toISOString()} by Warmshot ${header.app}.`);
  console.log(`Shape ${header.version}, ${header.lock ? 'locked' : 'open'}, ${file.length} bytes.`);
  console.log(JSON.stringify(counts));
}

/** A chunk that is what was written at this place of this file. */
function opened(closed, index, isLast) {
  const number = Buffer.alloc(5);
  number.writeUInt32BE(index);
  number[4] = isLast ? 1 : 0;
  if (!key) {
    const plain = closed.subarray(0, -32);
    const hash = sha256(Buffer.concat([headerHash, number, plain]));
    if (!hash.equals(closed.subarray(-32))) stop(`Chunk ${index} is damaged.`);
    return plain;
  }
  const nonce = Buffer.concat([Buffer.from(header.lock.nonce, 'hex'), number]);
  const cipher = createDecipheriv('aes-256-gcm', key, nonce);
  cipher.setAAD(Buffer.concat([headerHash, number]));
  cipher.setAuthTag(closed.subarray(-16));
  try {
    return Buffer.concat([cipher.update(closed.subarray(0, -16)), cipher.final()]);
  } catch {
    return stop(`Chunk ${index} is damaged.`);
  }
}

function sha256(bytes) {
  return createHash('sha256').update(bytes).digest();
}

function crcOf(bytes) {
  let rest = 0xffffffff;
  for (const byte of bytes) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit += 1) rest = (rest >>> 1) ^ (rest & 1 ? 0xedb88320 : 0);
  }
  return (rest ^ 0xffffffff) >>> 0;
}
