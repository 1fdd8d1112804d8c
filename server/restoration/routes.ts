import type { App, Shell } from '../shared/shell.ts'

export function registerRestoration(_app: App, _shell: Shell): void {
}
