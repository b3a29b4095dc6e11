// dump segments' mel (with context 60 before/40 after), for all conditions + dialogue + background
import { writeFileSync, readFileSync, mkdirSync } from 'node:fs'
import { readModelFiles } from '../../vite.ear-models.ts'
import { onnxModels } from '../../src/devices/ears-embedded/models-onnx.ts'
import { prominence } from '../../src/core/ears/prominence.ts'
import { segmenter } from '../../src/core/ears/segmenter.ts'
import { melFrames } from '../../src/core/ears/mel-stream.ts'
import { readAudio } from './read-audio.ts'
import { readLabelled } from './labelled.ts'
import { speechPower } from './mix.ts'
const D=process.argv[2]!, meta=JSON.parse(readFileSync(D+'/meta.json','utf8'))
const m = await onnxModels(readModelFiles())
function segs(mel:Float32Array,p:Float32Array){const n=mel.length/32,pr=prominence(),sg=segmenter();const out:any[]=[]
 for(let t=0;t<n;t++){const h=sg.push(p[Math.min(p.length-1,Math.floor(t/3.2))]!,pr.push(mel.subarray(t*32,t*32+32)));if(h.kind==='ended')out.push({...h.segment,at:t})}return out}
const f32=(f:string)=>{const b=readFileSync(f);return new Float32Array(b.buffer,b.byteOffset,b.length/4)}
for(const c of meta.filter((x:any)=>x.name)){const S=segs(f32(`${D}/${c.name}.mel`),f32(`${D}/${c.name}.p`));c.segs=S}
// dialogue
const dl=(await readAudio('/tmp/ears/dlg/tuning/all.wav')).subarray(16000*600,16000*(600+1500))
{const f=melFrames(dl);const p:number[]=[];m.forgetVoice();for(let i=0;i+512<=dl.length;i+=512)p.push(await m.voice(dl.subarray(i,i+512)));writeFileSync(D+'/dlg.mel',Buffer.from(f.buffer));writeFileSync(D+'/dlg.p',Buffer.from(Float32Array.from(p).buffer));meta.push({dlg:segs(f,Float32Array.from(p)),hours:1500/3600})}
const bg=await readLabelled('/tmp/ears/sets/background')
const out:Float32Array[]=[];const sg:any[]=[];let off=0
for(const c of bg){const g=0.05/Math.sqrt(speechPower(c.samples));const x=new Float32Array(c.samples.length+25600);c.samples.forEach((v,i)=>{x[12800+i]=v*g});for(let i=0;i<x.length;i++)x[i]!+=0.0001*Math.sin(i*i*0.37)
 const f=melFrames(x);const p:number[]=[];m.forgetVoice();for(let i=0;i+512<=x.length;i+=512)p.push(await m.voice(x.subarray(i,i+512)))
 for(const s of segs(f,Float32Array.from(p)))sg.push({start:s.start+off,end:s.end+off});out.push(f);off+=f.length/32}
const all=new Float32Array(off*32);let o=0;for(const f of out){all.set(f,o);o+=f.length}
writeFileSync(D+'/bg.mel',Buffer.from(all.buffer));meta.push({bg:sg})
const en=meta.find((x:any)=>x.enrol)
const ea=await readLabelled('/tmp/ears/sets/tuning/'+(D.endsWith('x1')?'one':'two')+'/enrol')
for(const c of ea){const g=0.05/Math.sqrt(speechPower(c.samples));const x=new Float32Array(c.samples.length+25600);c.samples.forEach((v,i)=>{x[12800+i]=v*g});let q=1;for(let i=0;i<x.length;i++){q=(q*16807)%2147483647;x[i]!+=0.0002*(q/2147483647-.5)}
 const f=melFrames(x);const p:number[]=[];m.forgetVoice();for(let i=0;i+512<=x.length;i+=512)p.push(await m.voice(x.subarray(i,i+512)))
 const S=segs(f,Float32Array.from(p));const e=en.enrol.find((q:any)=>q.file===c.file);writeFileSync(`${D}/enrol-${e.file}.mel`,Buffer.from(f.buffer))
 e.seg=S.sort((a:any,b:any)=>b.end-b.start-(a.end-a.start))[0];if(!e.seg){console.log('no seg',c.file);e.seg={start:Math.round(e.start),end:Math.round(e.end)}}}
writeFileSync(D+'/meta2.json',JSON.stringify(meta))
const r:any={};for(const c of meta.filter((x:any)=>x.name)){const k=c.kind+(c.snr??'');const q=r[k]??=[0,0,0];q[2]+=c.segs.length;for(const cl of c.clips){q[1]++;if(c.segs.some((s:any)=>Math.abs(s.start-cl.start)<=15&&Math.abs(s.end-cl.end)<=18))q[0]++}}
console.log(r,'dlg segs',meta.find((x:any)=>x.dlg).dlg.length,'bg',sg.length)
