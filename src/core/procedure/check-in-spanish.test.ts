import { expect, test } from 'vitest'
import { readProcedure } from './read-procedure.ts'

const procedure = (confirm: string, solution: string) => `procedure: p
title: Prueba
summary: Prueba
languages: [es]
machine: Máquina
sides: [{id: left, name: Izquierda}]
solutions: [{id: s, name: ${solution}, amount: 1 L, per: side, chemical: other, directions: Por la etiqueta.}]
stages:
  - stage: Limpie
    steps: [{step: a, say: Eche el limpiador., hands: 10 s, use: [s], confirm: ${confirm}}]`

const problems = (confirm: string, solution: string) => {
  const read = readProcedure(procedure(confirm, solution))
  return read.kind === 'faulty' ? read.problems.map(({ what }) => what) : []
}

test.each(['todo listo', 'ya está', 'listo'])('"%s" guards no moving part: it is said all day', (phrase) => {
  expect(problems(phrase, 'Limpiador')).toEqual([expect.stringContaining('said at other steps too')])
})

test.each(['las manos están fuera', 'está sin corriente'])('"%s" may guard one', (phrase) => {
  expect(problems(phrase, 'Limpiador')).toEqual([])
})

test.each(['Desinfectante de cloro', 'Vinagre blanco', 'Desincrustante', 'Amoníaco', 'Cloro'])(
  'a name such as "%s" gives away what it is',
  (name) => {
    expect(problems('está sin corriente', name)).toEqual([expect.stringContaining('The name of "s" speaks of')])
  }
)

test.each(['Limpiador sin cloro', 'Desinfectante de amonio cuaternario', 'Detergente sin ácido'])(
  '"%s" gives nothing away',
  (name) => {
    expect(problems('está sin corriente', name)).toEqual([])
  }
)
