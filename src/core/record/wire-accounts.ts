/** The shapes of the server's answers about people, devices and links. Null for anything else. */
import * as v from 'valibot'
import { LINK_KINDS, ROLES } from './account-kinds.ts'
import { reader } from './reader.ts'

const time = v.pipe(v.number(), v.finite(), v.minValue(0))
const role = v.picklist(ROLES)
const linkKind = v.picklist(LINK_KINDS)

const me = v.object({
  shop: v.picklist(['unowned', 'owned']),
  device: v.nullable(v.object({ id: v.string(), name: v.string() })),
  person: v.nullable(v.object({ id: v.string(), name: v.string(), role, elevatedMs: time })),
  link: v.nullable(v.object({ kind: linkKind, note: v.string(), machine: v.nullable(v.string()) }))
})

const names = v.object({
  names: v.array(v.object({ id: v.string(), name: v.string(), signsIn: v.boolean(), hasPin: v.boolean() }))
})

const people = v.object({
  people: v.array(v.object({ id: v.string(), name: v.string(), role, isActive: v.boolean(), hasSecret: v.boolean() }))
})

const devices = v.object({
  devices: v.array(v.object({ id: v.string(), name: v.string(), pairedAt: time, seenAt: time }))
})

const links = v.object({
  links: v.array(
    v.object({
      id: v.string(),
      kind: linkKind,
      note: v.string(),
      machine: v.nullable(v.string()),
      madeBy: v.string(),
      expiresAt: time
    })
  )
})

const deeds = v.object({
  deeds: v.array(
    v.object({
      id: v.number(),
      at: time,
      by: v.string(),
      device: v.string(),
      what: v.string(),
      about: v.string()
    })
  )
})

export const readMe = reader(me)
export const readNames = reader(names)
export const readPeople = reader(people)
export const readDevices = reader(devices)
export const readLinks = reader(links)
export const readDeeds = reader(deeds)
export const readMadeCode = reader(v.object({ code: v.string(), expiresAt: time }))
export const readCheck = reader(v.object({ check: v.string() }))
export const readToken = reader(v.object({ token: v.string() }))
