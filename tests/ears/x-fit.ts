import { readFileSync } from 'node:fs'
import { readModelFiles } from '../../vite.ear-models.ts'
import { onnxModels } from '../../src/devices/ears-embedded/models-onnx.ts'
import { melFrames } from '../../src/core/ears/mel-stream.ts'
import { logMel } from '../../src/core/ears/log-mel.ts'
import { sketchOf, likeness } from '../../src/core/ears/sketch.ts'
import { seeded, normal } from '../helpers/seeded.ts'
import { prominence } from '../../src/core/ears/prominence.ts'
const D=process.argv[2]!, variant=process.argv[3]??'base'
const V=new Set(variant.split('+'))
const meta=JSON.parse(readFileSync(D+'/meta2.json','utf8'))
const f32=(f:string)=>{const b=readFileSync(f);return new Float32Array(b.buffer.slice(b.byteOffset,b.byteOffset+b.length))}
const m = await onnxModels(readModelFiles())
let XT=V.has('shift')?8:0;
const PRE=48+XT,POST=XT+(V.has('post16')?16:V.has('post12')?12:V.has('post20')?20:32)
const num=(k:string,d:number)=>{const x=[...V].find(v=>v.startsWith(k+'='));return x?Number(x.slice(k.length+1)):d}
const FL=num('floor',0), SUB=num('sub',0), COMF=num('comf',-99), BETA=num('beta',0.05)
// noise reference: frames in the 250 before segment (excl. 10 just before)
function noiseOf(mel:Float32Array,seg:any){const n=new Float64Array(32);let c=0;const a=Math.max(0,seg.start-150),b=Math.max(a+10,seg.start-15);const cols:number[][]=Array.from({length:32},()=>[]);for(let t=a;t<b;t++){for(let k=0;k<32;k++)cols[k]!.push(mel[t*32+k]!)};return cols.map(x=>{x.sort((p,q)=>p-q);return x.slice(0,Math.ceil(x.length*0.8)).reduce((s,v)=>s+v,0)/Math.ceil(x.length*.8)*1.3})}
function cut(mel:Float32Array,seg:any){
  const n=mel.length/32;const L=seg.end-seg.start+PRE+POST;const out=new Float32Array(Math.max(76,L)*32)
  const total=out.length/32
  const real=num('real',99)
  for(let t=0;t<total;t++){let s=seg.start-PRE+t; if(s>seg.end+real||s<seg.start-real){s=Math.max(0,seg.start-PRE-20)+((t*7)%40)}; s=Math.min(n-1,Math.max(0,s));for(let k=0;k<32;k++)out[t*32+k]=mel[s*32+k]!}
  if(SUB>0){const nz=noiseOf(mel,seg);let pk=0;for(const v of out)if(v>pk)pk=v
    for(let i=0;i<out.length;i++){const nn=nz[i%32]!;out[i]=Math.max(out[i]!-SUB*nn,BETA*nn)}}
  if(V.has('norm')){const g=1e6/bandPow(out,PRE,total-POST);for(let i=0;i<out.length;i++)out[i]!*=g}
  if(COMF>-99){let s=0,c=0;for(let t=PRE;t<total-POST;t++){let e=0;for(let k=0;k<32;k++)e+=out[t*32+k]!;s+=e;c++}
    const lvl=s/c/32*10**(-COMF/10);for(let i=0;i<out.length;i++)out[i]!+=lvl*pinkShape[i%32]!}
  return out}
const pinkShape=Array.from({length:32},(_,k)=>1)
async function sks(mel:Float32Array):Promise<Float32Array[]>{const e=await m.embed(logMel(mel));if(!XT)return[sketchOf(e)];const W=e.length/96;const o:Float32Array[]=[];for(const a of[0,1,2])for(const b of[0,1,2])if(W-a-b>=1)o.push(sketchOf(e.subarray(a*96,(W-b)*96)));return o}
async function sk(mel:Float32Array){const e=await m.embed(logMel(mel));if(!XT)return sketchOf(e);const W=e.length/96;return sketchOf(e.subarray(96,(W-1)*96))}
// noises for prototypes
const ch=seeded(9)
function shaped(tilt:number){ // time domain: mix of white, leaky
  let low=0;const x=Float32Array.from({length:16000*6},()=>{const w=normal(ch);low=tilt*low+(1-tilt)*w*4;return tilt===0?w:low+0.02*w});return melFrames(x)}
const NO:Record<string,Float32Array>={white:shaped(0),pink:shaped(0.75),brown:shaped(0.93)}
{// bab: bg speech sum
 const bg=f32(D+'/bg.mel');const n=600;const o=new Float32Array(n*32);for(let j=0;j<6;j++){const s=Math.floor(ch()*(bg.length/32-n));for(let i=0;i<n*32;i++)o[i]!+=bg[s*32+i]!};NO.babble=o}

function withNoise(mel:Float32Array,kind:string,snr:number){ // snr in mel-sum domain
  const nz=NO[kind]!;const sp=bandPow(mel,0,mel.length/32);const np=bandPow(nz,0,nz.length/32);const g=sp/np*10**(-snr/10)
  const o=Math.floor(ch()*(nz.length/32-mel.length/32));return mel.map((v,i)=>v+g*nz[(o+0)*32+i]!)}
const COND:[string,number][]=V.has('clean')?[]:V.has('few')?[['pink',12],['pink',5]]:[['white',15],['white',5],['pink',12],['pink',4],['brown',12],['brown',4],['babble',10],['babble',4]]
const en=meta.find((x:any)=>x.enrol).enrol
const speakers=[...new Set(en.map((e:any)=>e.sp))] as string[]
const labels=[...new Set(en.map((e:any)=>e.label))] as string[]
const protos=new Map<string,Map<string,Float32Array[]>>()
const jit=V.has('jit')
for(const e of en){const mel=f32(`${D}/enrol-${e.file}.mel`);const list=protos.get(e.sp)??new Map();protos.set(e.sp,list);const l=list.get(e.label)??[];list.set(e.label,l)
  const segAt=(d:number,q:number)=>cut(mel,{start:e.seg.start+d,end:e.seg.end+q})
  l.push(await sk(segAt(0,0)))
  let i=0;for(const [k,s] of COND){const d=jit?[-5,5,0,-3,3,0,2,-2][i%8]!:0,q=jit?[5,-5,3,0,0,-4,4,2][i%8]!:0;i++
    const c=segAt(d,q);let nmel=withNoise(c,k,s);l.push(await sk(SUB>0?subtractConst(nmel,NO[k]!,bandPow(c,0,c.length/32)/bandPow(NO[k]!,0,NO[k]!.length/32)*10**(-s/10)):nmel))}}
function subtractConst(mel:Float32Array,nz:Float32Array,g:number){const mean=new Float64Array(32);for(let i=0;i<nz.length;i++)mean[i%32]!+=nz[i]!/(nz.length/32);return mel.map((v,i)=>Math.max(v-SUB*g*mean[i%32]!,BETA*g*mean[i%32]!))}
const bgm=f32(D+'/bg.mel');const bgs:Float32Array[][]=[]
{let i=0;for(const s of meta.find((x:any)=>x.bg).bg){const c=cut(bgm,s);const q=[null,...COND][i++%(COND.length+1)];bgs.push(await sks(q?withNoise(c,q[0],q[1]):c))}}
const top2=(vs:Float32Array[],l:Float32Array[])=>Math.max(...vs.map(v=>top2a(v,l)));const top2a=(v:Float32Array,l:Float32Array[])=>{let a=-1,b=-1;for(const p of l){const c=likeness(v,p);if(c>a){b=a;a=c}else if(c>b)b=c}return (a+b)/2}
const stat=new Map<string,{m:number,s:number}>()
for(const sp of speakers)for(const l of labels){const x=bgs.map(b=>top2(b,protos.get(sp)!.get(l)!));const mm=x.reduce((s,v)=>s+v,0)/x.length;const sd=Math.sqrt(x.reduce((s,v)=>s+(v-mm)**2,0)/x.length);stat.set(sp+l,{m:mm,s:sd})}
const z=(v:Float32Array[],sp:string,l:string)=>{const t=stat.get(sp+l)!;return (top2(v,protos.get(sp)!.get(l)!)-t.m)/t.s}
const lens=new Map<string,number>();for(const sp of speakers)for(const l of labels){const q=en.filter((e:any)=>e.sp===sp&&e.label===l).map((e:any)=>e.end-e.start);lens.set(sp+l,q.reduce((a:number,b:number)=>a+b,0)/q.length)}
const best=(v:Float32Array[],sp:string,len:number)=>{let b='',bz=-9,sec=-9;for(const l of labels){const L=lens.get(sp+l)!;const zz=(len<L*.5||len>L*1.9)?-9:z(v,sp,l);if(zz>bz){sec=bz;bz=zz;b=l}else if(zz>sec)sec=zz}return{b,z:bz,margin:bz-sec}}
let tg=1;const TG=V.has('tg');const GAP=num('gap',0),DENS=num('dens',9)
function iso(all:any[],s:any){const i=all.indexOf(s);const prev=all[i-1];if(GAP&&prev&&s.start-prev.end<GAP)return false;let busy=0;for(let j=i-1;j>=0&&all[j].end>s.start-300;j--)busy+=all[j].end-Math.max(all[j].start,s.start-300);return busy/300<DENS}
// dialogue
const dm=f32(D+'/dlg.mel');const dz:number[]=[];const dinfo=meta.find((x:any)=>x.dlg)
for(const s of dinfo.dlg){if(s.end-s.start>160)continue;if(!iso(dinfo.dlg,s))continue;const v=await sks(cut(dm,s));for(const sp of speakers)dz.push(best(v,sp,s.end-s.start).z)}
dz.sort((a,b)=>b-a);const hours=dinfo.hours*speakers.length;const thr=dz[Math.max(0,Math.floor(1.0*hours))]!
const res:any={}
const zs:number[]=[]
for(const c of meta.filter((x:any)=>x.name)){const mel=f32(`${D}/${c.name}.mel`);const k=c.kind+(c.snr??'');const r=res[k]??={n:0,right:0,wrong:0,forced:0,seg:0,extra:0}
  for(const cl of c.clips){r.n++}
  for(const s of c.segs){const cl=c.clips.find((q:any)=>Math.min(q.end,s.end)-Math.max(q.start,s.start)>0.4*(q.end-q.start));const v=iso(c.segs,s)?await sks(TG?cut(mel,s).map((v,i,a)=>v*(i===0?(tg=10**(-1.2+1.6*ch())):tg)):cut(mel,s)):null;if(!v){if(cl)r.iso=(r.iso??0)+1;continue};const b=best(v,c.sp,s.end-s.start)
    if(!cl){if(b.z>thr)r.extra++;continue}
    r.seg++;if(b.b===cl.label)r.forced++
    if(b.z>thr&&s.end-s.start<=160){if(b.b===cl.label)r.right++;else r.wrong++}}}
console.log(variant,'thr',thr.toFixed(2),Object.entries(res).map(([k,r]:any)=>`${k} ${Math.round(100*r.right/r.n)}/${Math.round(100*r.forced/r.n)} w${r.wrong} x${r.extra} i${r.iso??0}`).join(' | '))
function bandPow(f:Float32Array,a:number,b:number){const e:number[]=[];for(let t=a;t<b;t++){let s=0;for(let k=0;k<32;k++)s+=f[t*32+k]!;e.push(s)}e.sort((x,y)=>y-x);const h=e.slice(0,Math.ceil(e.length*.7));return h.reduce((s,v)=>s+v,0)/h.length}
