import { bad, ok, type Result } from '../measure/result.ts';

const SHAPE = /^[a-z0-9]+(?:-[a-z0-9]+)*$/;

const LONGEST = 80;

/** Names that Windows keeps for devices, whatever ending the file carries. */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)$/;

/** Reads a file's or an entry's own name, which becomes part of a path: it can never lead out of its folder. */
export function parseId(text: string): Result<string> {
  const shown = text.length > LONGEST ? `${text.slice(0, LONGEST)}...` : text;
  if (text.length > LONGEST) return bad(`the id "${shown}" is too long: write at most ${LONGEST} letters`);
  if (DEVICE.test(text)) return bad(`"${text}" is kept for a device on some computers: choose another id`);
  if (SHAPE.test(text)) return ok(text);
  return bad(
    `"${shown}" is not an id: write lower-case letters, figures and single hyphens, such as nettle-leaf`,
  );
}
