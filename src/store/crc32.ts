import * as zlib from 'node:zlib';

// The checksum of a journal line: CRC-32 as in ISO 3309 and PNG (polynomial 0xEDB88320 reflected, start and end inverted).

const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value >>> 0;
});

/** As `crc32`, in plain code: for a Node before 20.15, and to check the other against. */
export function crc32Plain(bytes: Uint8Array): number {
  let value = 0xffffffff;
  for (const byte of bytes) value = (table[(value ^ byte) & 0xff] ?? 0) ^ (value >>> 8);
  return ~value >>> 0;
}

/**
 * CRC-32 of `bytes`, an unsigned 32-bit integer.
 *
 * Example: of the nine ASCII digits `123456789` it is 0xcbf43926, the check value of ISO 3309.
 */
export const crc32: (bytes: Uint8Array) => number =
  typeof zlib.crc32 === 'function' ? (bytes) => zlib.crc32(bytes) : crc32Plain;
