export type Role = 'owner' | 'manager' | 'technician' | 'delivery'
export type Units = 'metric' | 'inch'
export type Theme = 'system' | 'light' | 'dark'

/** Who looks at a page, and how figures are written for them. */
export interface Viewer {
  readonly personId: string
  readonly name: string
  readonly role: Role
  readonly units: Units
  readonly theme: Theme
  readonly csrfToken: string
  readonly shopName: string
  readonly currency: string
  /** Calendar date in the shop's zone, YYYY-MM-DD. */
  readonly today: string
}

/** What is wrong with one field of a form: which, why and what to do. */
export interface FieldProblem {
  readonly field: string
  readonly message: string
  /** Where it can be put right, if that is another page. */
  readonly help?: { readonly href: string, readonly name: string } | undefined
}
