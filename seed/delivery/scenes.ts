import { randomFrom } from '../random.ts'

type Scene = 'empty bay' | 'liner' | 'clamps' | 'board' | 'drawer' | 'foam'

const rect = (x: number, y: number, w: number, h: number, fill: string, more = ''): string => `<rect x="${x}" y="${y}" width="${w}" height="${h}" fill="${fill}" ${more}/>`
const row = (count: number, draw: (index: number) => string): string => Array.from({ length: count }, (_, index) => draw(index)).join('')

const SCENES: Readonly<Record<Scene, string>> = {
  'empty bay': `${rect(0, 0, 960, 640, '#51565a')}<path d="M120 520L300 240H660L840 520z" fill="#7d7a72"/><path d="M120 520H840L900 640H60z" fill="#5f5c55"/>${row(9, (i) => `<path d="M${180 + i * 75} 640L${330 + i * 38} 240" stroke="#6c6961" stroke-width="3"/>`)}`,
  'liner': `${rect(0, 0, 960, 640, '#43474a')}${rect(150, 180, 660, 300, '#8a8478')}${rect(150, 180, 660, 60, '#9a9488')}${row(6, (i) => `<circle cx="${210 + i * 108}" cy="450" r="9" fill="#3b3936"/>`)}`,
  'clamps': `${rect(0, 0, 960, 640, '#b8b1a2')}${rect(180, 210, 600, 250, '#d9b77f')}${rect(200, 230, 560, 210, '#c39c62')}${row(4, (i) => `${rect(230 + i * 150, 150, 18, 380, '#38404a')}${rect(205 + i * 150, 150, 70, 22, '#38404a')}${rect(205 + i * 150, 500, 70, 22, '#8a2f24')}`)}`,
  'board': `${rect(0, 0, 960, 640, '#8d8b84')}${rect(130, 120, 700, 400, '#3c3a38')}${rect(200, 180, 300, 160, '#565b60')}${row(7, (i) => rect(220 + i * 38, 190, 14, 140, '#6d7379'))}${rect(560, 190, 180, 110, '#a9a59a')}<path d="M500 300C560 420 700 380 780 470" stroke="#b23a2e" stroke-width="9" fill="none"/><path d="M500 320C560 450 680 430 760 500" stroke="#17191c" stroke-width="9" fill="none"/>`,
  'drawer': `${rect(0, 0, 960, 640, '#565a5d')}${rect(140, 260, 680, 240, '#c89f66')}${rect(160, 300, 640, 170, '#b98f57')}${rect(420, 370, 120, 20, '#2f3133')}${rect(140, 210, 680, 50, '#7a4f2d')}<path d="M140 210L200 150H760L820 210z" fill="#8f6138"/>`,
  'foam': `${rect(0, 0, 960, 640, '#c39c62')}${rect(60, 60, 840, 520, '#2d2f31')}${rect(120, 130, 260, 180, '#17181a', 'rx="20"')}<circle cx="560" cy="220" r="100" fill="#17181a"/>${rect(130, 380, 420, 120, '#17181a', 'rx="60"')}${rect(640, 360, 200, 160, '#d8a21c', 'rx="12"')}`,
}

/** An invented picture: flat shapes with the grain of a camera. */
export function drawScene(scene: Scene, seed: number): string {
  const random = randomFrom(seed)
  const grain = row(240, () => `<circle cx="${Math.round(random() * 960)}" cy="${Math.round(random() * 640)}" r="1.5" fill="${random() < 0.5 ? '#fff' : '#000'}" fill-opacity=".12"/>`)
  return `<svg xmlns="http://www.w3.org/2000/svg" width="960" height="640">${SCENES[scene]}<path d="M0 0H960V640H0z" fill="url(#light)"/><defs><linearGradient id="light" x1="0" y1="0" x2="1" y2="1"><stop offset="0" stop-color="#fff" stop-opacity=".22"/><stop offset="1" stop-color="#000" stop-opacity=".3"/></linearGradient></defs>${grain}</svg>`
}
