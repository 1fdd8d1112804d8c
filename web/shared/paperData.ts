/** A quote or a change order in words, as screen and paper show it. */
export interface PaperView {
  readonly currency: string
  readonly lines: readonly PaperLineView[]
  readonly options: readonly PaperOptionView[]
  readonly totals: readonly PaperTotalView[]
  /** What the sum stands for, as "Without options". */
  readonly totalsFor: string
  readonly deposits: readonly { readonly due: string, readonly share: string, readonly amount: string, readonly how?: string | undefined }[]
  /** Not included, assumed, replaced parts and what else is said. */
  readonly said: readonly { readonly name: string, readonly text: string }[]
}

export interface PaperLineView {
  readonly text: string
  /** Empty where it is one. */
  readonly quantity: string
  readonly each: string
  readonly tax: string
  readonly amount: string
  readonly how?: string | undefined
  readonly href?: string | undefined
}

export interface PaperOptionView {
  readonly number: number
  readonly name: string
  readonly note: string
  /** The word that it shares with those it excludes; empty for yes or no. */
  readonly oneOf: string
  readonly lines: readonly PaperLineView[]
  readonly net: string
  readonly total: string
  readonly isChosen: boolean
  readonly how?: string | undefined
  readonly href?: string | undefined
}

export interface PaperTotalView {
  readonly name: string
  readonly amount: string
  readonly isTotal: boolean
  readonly how?: string | undefined
}
