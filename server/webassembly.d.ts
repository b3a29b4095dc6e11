/** The part of WebAssembly that is used here: Node's types leave it to those of browsers. */
declare namespace WebAssembly {
  interface Module {
    readonly [kind: symbol]: 'module'
  }
  interface Instance {
    readonly exports: Record<string, unknown>
  }
  function compile(bytes: Uint8Array): Promise<Module>
  function instantiate(module: Module, imports: Record<string, Record<string, unknown>>): Promise<Instance>
}
