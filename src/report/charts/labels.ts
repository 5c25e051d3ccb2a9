/** A name in a few short lines; what does not fit ends in an ellipsis. */
export function lines(text: string, width: number, most: number): string[] {
  const broken: string[] = [];
  for (const word of text.split(' ')) {
    const last = broken.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width)
      broken[broken.length - 1] = `${last} ${word}`;
    else broken.push(word);
  }
  const kept = broken.slice(0, most).map((part) => shortened(part, width));
  if (broken.length > most)
    kept[most - 1] = `${kept[most - 1].replace(/…$/, '').slice(0, Math.max(1, Math.floor(width) - 1))}…`;
  return kept;
}

/**
 * Places for labels of one width along a line, each as near to where it belongs as the others let it.
 *
 * @param wanted in order
 * @param room of a label; all of them fit between the ends
 */
export function spread(
  wanted: readonly number[],
  [from, to]: readonly [number, number],
  room: number,
): number[] {
  const places: number[] = [];
  for (const [i, place] of wanted.entries()) {
    places.push(Math.max(place, i === 0 ? from + room / 2 : places[i - 1] + room));
  }
  let end = to - room / 2;
  for (let i = places.length - 1; i >= 0; i -= 1) {
    places[i] = Math.min(places[i], end);
    end = places[i] - room;
  }
  return places;
}

function shortened(text: string, width: number): string {
  return text.length <= width ? text : `${text.slice(0, Math.max(1, Math.floor(width) - 1))}…`;
}
