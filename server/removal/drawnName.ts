const LONGEST_LINE = 17

/** A name in at most two short lines, the rest left out: the list beside the drawing has it whole. */
export function breakName(name: string): string[] {
  const lines: string[] = ['']
  for (const word of name.split(' ')) {
    const line = lines.at(-1) ?? ''
    const longer = line === '' ? word : `${line} ${word}`
    if (longer.length <= LONGEST_LINE || line === '') lines[lines.length - 1] = longer
    else lines.push(word)
  }
  const [first = '', second, ...rest] = lines.map((line) => (line.length > LONGEST_LINE ? `${line.slice(0, LONGEST_LINE - 1)}…` : line))
  if (second === undefined) return [first]
  return [first, rest.length === 0 ? second : `${second.slice(0, LONGEST_LINE - 2).trimEnd()} …`]
}
