import type { TrailStep } from '../shared/strip.tsx'
import type { FieldProblem } from '../shared/viewer.ts'

export interface ToldPicture {
  readonly src: string
  readonly large: string
  readonly words: string
  readonly says: string
  readonly width: number
  readonly height: number
}

export interface ToldPart {
  readonly name: string
  readonly family: string
  readonly words: string
  readonly hours: string
  /** First names, where the story names people. */
  readonly people: readonly string[]
  readonly materials: string
}

/** A story as anybody reads it: nothing in it says whose vehicle it is. */
export interface StoryData {
  readonly shopName: string
  readonly title: string
  readonly opening: string
  readonly closing: string
  readonly vehicle: string
  readonly kind: string
  readonly moments: readonly { readonly moment: string, readonly pictures: readonly ToldPicture[] }[]
  readonly parts: readonly ToldPart[]
  readonly hours: { readonly total: string, readonly by: readonly { readonly name: string, readonly hours: string }[] } | null
  readonly people: readonly string[]
}

export interface StoryForm {
  readonly trail: readonly TrailStep[]
  readonly number: string
  readonly buildTitle: string
  readonly action: string
  readonly key: string
  readonly version: number
  readonly saved: boolean
  readonly values: Readonly<Record<'title' | 'opening' | 'closing', string>>
  readonly shows: Readonly<Record<'showsPeople' | 'showsHours' | 'showsMaterials', boolean>>
  readonly photos: readonly { readonly id: string, readonly caption: string, readonly isChosen: boolean, readonly moment: string, readonly words: string }[]
  readonly parts: readonly { readonly id: string, readonly name: string, readonly isChosen: boolean, readonly words: string }[]
  readonly problems: readonly FieldProblem[]
  readonly links: readonly { readonly name: string, readonly href: string }[]
}
