import json, csv, hashlib, sys
folds={(r['set'],r['prompt_id']):int(r['fold']) for r in csv.DictReader(open(sys.argv[2]))}
H=lambda s,n:int(hashlib.md5(s.encode()).hexdigest(),16)%n
n=0
with open(sys.argv[1],'w') as out:
    for f in sys.argv[3:]:
        for l in open(f):
            i=json.loads(l); k=(i['set'],i['q'])
            if k in folds: i['fold']=folds[k]
            elif i['set'] in('answers','answers-cut','answers-exam'): i['fold']=-1; i['set']='bench-'+i['set']
            else: i['fold']=9 if H(i['q']+'u',12)==0 else H(i['q'],5)
            ps=[]
            for p in i['pieces']:
                for t,e in zip(p[1::2],p[2::2]):
                    if ps and ps[-1][0]==p[0] and ps[-1][2]==e: ps[-1][1]+=t
                    else: ps.append([p[0],t,e])
            i['ps']=ps; del i['pieces'],i['f']; out.write(json.dumps(i,ensure_ascii=False)+'\n'); n+=1
print(n)
