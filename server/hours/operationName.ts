import { label } from '../shared/records/kind.ts'

const NAMED = { select: { id: true, number: true, name: true } } as const

/** What of an operation its name is made of. */
export const OPERATION_NAME = {
  id: true, number: true, kind: true, work: true, state: true, version: true, removedAt: true, buildId: true,
  build: { select: { number: true, title: true, removedAt: true } },
  part: NAMED, line: NAMED, factoryPart: NAMED,
} as const

interface Named {
  readonly id: string
  readonly number: number
  readonly name: string
}

export interface NamedOperation {
  readonly number: number
  readonly kind: string
  readonly work: string
  readonly part: Named | null
  readonly line: Named | null
  readonly factoryPart: Named | null
}

export interface OperationWords {
  /** What is worked on: "P-510 Record bin". */
  readonly item: string
  readonly itemHref: string
  /** "Op 50, sand, to 240 grit". */
  readonly operation: string
}

/** An operation in the words of the bench. */
export function nameOperation({ number, kind, work, part, line, factoryPart }: NamedOperation): OperationWords {
  const operation = [`Op ${number}`, kind, work].filter((word) => word !== '').join(', ')
  if (part) return { item: `${label('P', part.number)} ${part.name}`, itemHref: `/parts/${part.id}`, operation }
  if (line) return { item: `${label('E', line.number)} ${line.name}`, itemHref: `/equipment-lines/${line.id}`, operation }
  if (factoryPart) return { item: `${label('F', factoryPart.number)} ${factoryPart.name}`, itemHref: `/factory-parts/${factoryPart.id}`, operation }
  throw new Error('an operation stands on nothing')
}

export const inOneLine = (operation: NamedOperation): string => {
  const words = nameOperation(operation)
  return `${words.item}, ${words.operation}`
}
