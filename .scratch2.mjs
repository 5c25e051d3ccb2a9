const t0=performance.now();
const h=await import('highs');const t1=performance.now();
const x=await h.default();const t2=performance.now();
console.log('start',t0.toFixed(0),'import',(t1-t0).toFixed(1),'inst',(t2-t1).toFixed(1));
