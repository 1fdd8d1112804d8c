/** One operation of a recipe; hours at size 1. */
export interface Step {
  readonly kind: string
  readonly work: string
  readonly skill: string
  readonly setUp: number
  readonly run: number
  readonly wait: number
  readonly crew: number
  /** Of the run of one piece: when all goes well, and when all goes wrong. */
  readonly unsure?: readonly [best: number, worst: number]
  readonly learning?: { readonly model: string, readonly rate: string }
  /** Where the department's does not hold. */
  readonly rework?: string
}

const step = (kind: string, work: string, skill: string, setUp: number, run: number, wait = 0, crew = 1): Step =>
  ({ kind, work, skill, setUp, run, wait, crew })

const molded: readonly Step[] = [
  step('pattern', 'shape from the vehicle', 'mold making', 0.4, 0.9),
  { ...step('mold', 'fleece over the frame, first coat', 'mold making', 0.3, 0.7, 4), unsure: [0.75, 2] },
  step('laminate', 'three plies', 'laminating', 0.4, 0.9, 14),
  step('cut', 'trim to the line', 'laminating', 0.15, 0.3),
  { ...step('fill', 'two passes', 'filling and sanding', 0.2, 0.6, 2), rework: '12 %' },
  step('sand', '120 to 240', 'filling and sanding', 0.2, 0.9),
]
const painted = [
  step('prime', 'filling primer, two coats', 'painting', 0.3, 0.25, 12),
  step('paint', 'color and matte clear', 'painting', 0.5, 0.35, 24),
]
const wrapped = [
  step('foam', 'cover foam on', 'covering', 0.15, 0.3, 1),
  step('wrap', 'cover, edges turned', 'covering', 0.25, 0.85),
]

/** What the usual parts of the shop take. Hours of the right size: common practice, no source. */
export const RECIPES = {
  'molded and covered': [...molded, ...wrapped],
  'molded and painted': [...molded, ...painted],
  panel: [
    step('cut', 'outline', 'joinery', 0.2, 0.25),
    step('machine', 'edges and holes', 'joinery', 0.2, 0.25),
    step('sand', 'edges', 'joinery', 0.1, 0.2),
  ],
  'covered panel': [
    step('pattern', 'paper, then board', 'joinery', 0.2, 0.4),
    step('cut', 'outline', 'joinery', 0.2, 0.25),
    ...wrapped,
  ],
  'painted panel': [
    step('cut', 'outline', 'joinery', 0.2, 0.25),
    step('sand', 'faces and edges', 'filling and sanding', 0.15, 0.4),
    ...painted,
  ],
  box: [
    step('design', 'volume and panels', 'drawing', 0.75, 0),
    { ...step('cut', 'panels', 'joinery', 0.4, 0.7), learning: { model: 'unit', rate: '90 %' } },
    step('assemble', 'glue and screw', 'joinery', 0.3, 1.1, 6),
    step('sand', 'joints flush', 'filling and sanding', 0.1, 0.4),
    step('damp', 'line the inside', 'fitting', 0.1, 0.3),
  ],
  ring: [
    step('machine', 'rebate and outline', 'milling', 0.4, 0.3),
    step('sand', 'break the edges', 'joinery', 0.05, 0.1),
  ],
  'welded frame': [
    step('design', 'sections and fixings', 'drawing', 0.75, 0),
    step('cut', 'lengths and miters', 'welding', 0.25, 0.6),
    step('weld', 'on the jig', 'welding', 0.5, 1.3),
    step('sand', 'welds flush', 'filling and sanding', 0.1, 0.4),
    step('outside finish', 'powder coat', 'fitting', 0.3, 0, 120),
  ],
  'milled piece': [
    step('design', 'drawing and tool path', 'drawing', 0.5, 0),
    { ...step('machine', 'both sides', 'milling', 0.6, 0.35), learning: { model: 'cumulative average', rate: '95 %' } },
    step('sand', 'grain with the length', 'filling and sanding', 0.1, 0.15),
    step('outside finish', 'anodize, black', 'fitting', 0.25, 0, 168),
  ],
  'printed piece': [
    step('design', 'model', 'drawing', 0.6, 0),
    step('print', 'overnight', 'printing', 0.2, 0.1, 9),
    step('sand', 'layers off', 'filling and sanding', 0.1, 0.25),
  ],
  bracket: [
    step('cut', 'blank', 'welding', 0.15, 0.15),
    step('machine', 'drill and bend', 'milling', 0.2, 0.15),
    step('paint', 'rust protection', 'painting', 0.15, 0.1, 4),
  ],
  grille: [
    step('cut', 'frame and mesh', 'joinery', 0.25, 0.3),
    step('assemble', 'mesh into the frame', 'joinery', 0.1, 0.25, 2),
    step('wrap', 'cloth', 'covering', 0.15, 0.35),
  ],
  cover: [
    step('pattern', 'from the old cover', 'sewing', 0.4, 0.6),
    step('cut', 'panels', 'sewing', 0.15, 0.3),
    step('sew', 'seams and piping', 'sewing', 0.3, 1.1),
    step('fit', 'onto the foam', 'covering', 0.1, 0.5),
  ],
  'carpeted panel': [
    step('cut', 'outline', 'joinery', 0.2, 0.25),
    step('wrap', 'carpet', 'covering', 0.15, 0.4),
  ],
  sheetwork: [
    step('cut', 'blank', 'milling', 0.2, 0.2),
    step('machine', 'fold and drill', 'milling', 0.3, 0.35),
    step('paint', 'textured', 'painting', 0.25, 0.2, 12),
  ],
  assembly: [
    step('assemble', 'pieces together', 'joinery', 0.25, 1.2),
    step('fit', 'into the vehicle', 'fitting', 0.3, 1.1, 0, 2),
    step('check', 'gaps, rattles, removable', 'final check', 0, 0.3),
  ],
  'sub-assembly': [
    step('assemble', 'pieces together', 'joinery', 0.2, 0.8),
    step('check', 'dry fit', 'fitting', 0, 0.3),
  ],
  'amplifier board': [
    step('design', 'layout and wire runs', 'drawing', 0.75, 0),
    step('cut', 'board and raised edges', 'joinery', 0.25, 0.5),
    step('fit', 'devices onto the board', 'wiring', 0.2, 0.9),
    { ...step('wire', 'on the bench', 'wiring', 0.3, 1.6), unsure: [0.75, 1.75] },
  ],
  'fit only': [step('fit', '', 'fitting', 0.1, 0.3)],
  'fit and wire': [step('fit', '', 'fitting', 0.1, 0.3), step('wire', 'connect and label', 'wiring', 0.15, 0.35)],
  'run and wire': [step('wire', 'run, sleeve, terminate', 'wiring', 0.3, 1.2)],
  'set up': [step('wire', 'connect and label', 'wiring', 0.2, 0.8), step('tune', 'delays, levels, crossovers', 'tuning', 0.5, 2.5)],
  'zone out and back': [
    step('take out', 'the whole zone, bagged and labeled', 'disassembly', 0.2, 1),
    step('put back', 'all that goes back, new clips', 'disassembly', 0.2, 1.1),
  ],
  'zone out': [step('take out', 'bagged and labeled', 'disassembly', 0.1, 1)],
  'damp and back': [
    step('take out', 'the whole zone, bagged and labeled', 'disassembly', 0.2, 1),
    step('damp', 'outer skin, then inner', 'fitting', 0.3, 1.6),
    step('put back', 'all that goes back, new clips', 'disassembly', 0.2, 1.1),
  ],
} as const satisfies Readonly<Record<string, readonly Step[]>>

export type RecipeName = keyof typeof RECIPES
