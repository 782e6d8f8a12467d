import { bytesWords } from '../../parts/index.ts';
import type { Asked } from '../../shell/index.ts';

/** Largest file that is sent at all, in bytes; the main process says what it takes of it. */
export const LARGEST_BYTES = 8 * 1024 * 1024;

/** A file's bytes in base64. One too large to be sent, or that cannot be read, is refused. */
export async function fileBase64(file: File): Promise<Asked<string>> {
  if (file.size > LARGEST_BYTES)
    return refused(
      `“${file.name}” has ${bytesWords(file.size)}; at most ${bytesWords(LARGEST_BYTES)} are taken.`,
      'Choose another file, or make the pictures in it smaller.',
    );
  try {
    return { ok: true, value: await base64(file) };
  } catch {
    return refused(
      `“${file.name}” cannot be read.`,
      'See that it is a file, is still there, and may be read.',
    );
  }
}

/** The bytes that some base64 stands for. */
export function bytesOfBase64(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
}

/** By a data address, which the browser makes without a detour over strings of characters. */
function base64(file: File): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener('error', () => reject(reader.error ?? new Error('unread')));
    reader.addEventListener('load', () => {
      const address = typeof reader.result === 'string' ? reader.result : '';
      resolve(address.slice(address.indexOf(',') + 1));
    });
    reader.readAsDataURL(file);
  });
}

function refused(message: string, help: string): Asked<never> {
  return { ok: false, trouble: { code: 'REFUSED_FILE', message, where: '', help } };
}
