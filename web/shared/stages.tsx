/** The stages of a build as a scale; the word beside it says where. */
export function StageScale({ index, count, isShort = false }: { index: number, count: number, isShort?: boolean }): JSX.Element {
  const step = 288 / Math.max(count - 1, 1)
  const marks = Array.from({ length: count }, (_, each) => `M${6 + each * step} ${each < index ? 8 : 10}v${each < index ? 12 : 8}`)
  return (
    <svg class={['stages', isShort && 'short']} viewBox="0 0 300 26" preserveAspectRatio="none" aria-hidden="true">
      <path d={`M6 14H294${marks.join('')}`} />
      <path class="at" d={`M${6 + Math.min(Math.max(index - 1, 0), count - 1) * step} 14l-8-13h16z`} />
    </svg>
  )
}
