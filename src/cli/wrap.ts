/**
 * Text broken into lines at blanks, for a terminal.
 */
export const LINE_CHARACTERS = 100;

/** Lines of at most `width` characters; a longer word keeps a line of its own. */
export function wrap(text: string, width: number = LINE_CHARACTERS): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, line].join('\n');
}
