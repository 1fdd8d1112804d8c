import type { App, Shell } from '../shared/shell.ts'

export function registerHours(_app: App, _shell: Shell): void {
}
