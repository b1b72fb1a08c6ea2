import { bad, ok, type Result } from '../measure/result.ts';

const SHAPE = /^[a-z0-9]+(?:-[a-z0-9]+)*$/;

export const LONGEST_ID = 80;

/** Names that Windows keeps for devices, whatever ending the file carries. */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)$/;

export const isDeviceName = (name: string): boolean => DEVICE.test(name);

/** The two together, for an editor. */
export const ID_PATTERN = `^(?!${DEVICE.source.slice(1)})${SHAPE.source.slice(1)}`;

/** Reads a file's or an entry's own name, which becomes part of a path: it can never lead out of its folder. */
export function parseId(text: string): Result<string> {
  const shown = text.length > LONGEST_ID ? `${text.slice(0, LONGEST_ID)}...` : text;
  if (text.length > LONGEST_ID)
    return bad(`the id "${shown}" is too long: write at most ${LONGEST_ID} letters`);
  if (DEVICE.test(text)) return bad(`"${text}" is kept for a device on some computers: choose another id`);
  if (SHAPE.test(text)) return ok(text);
  return bad(
    `"${shown}" is not an id: write lower-case letters, figures and single hyphens, such as nettle-leaf`,
  );
}
