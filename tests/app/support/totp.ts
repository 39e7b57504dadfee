import { createHmac } from 'node:crypto';

const BASE32 = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/** The six-digit code of a key (base 32) at a time in milliseconds, by RFC 6238 with SHA-1 and steps of 30 s. */
export function totp(key: string, at: number): string {
  const bits = [...key.replaceAll(/[\s=]/g, '').toUpperCase()]
    .map((sign) => BASE32.indexOf(sign).toString(2).padStart(5, '0'))
    .join('');
  const bytes = (bits.match(/.{8}/g) ?? []).map((byte) => Number.parseInt(byte, 2));
  const counter = Buffer.alloc(8);
  counter.writeBigUInt64BE(BigInt(Math.floor(at / 30_000)));
  const hash = createHmac('sha1', Buffer.from(bytes)).update(counter).digest();
  const offset = hash.at(-1)! & 15;
  return String((hash.readUInt32BE(offset) & 0x7fffffff) % 1_000_000).padStart(6, '0');
}
