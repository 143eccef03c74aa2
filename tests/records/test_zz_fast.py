import time, uuid
import pytest
from datetime import date
from tests.records.test_taking_in import Desk
from helmwright.records.readers.taking_in import plan_of
from helmwright.records.actions.take_in import take_in, undo_take_in
pytestmark = pytest.mark.django_db
B="Avocet Bunting Curlew Dunlin Egret Fulmar Godwit Heron Ibis Jacana Knot Loon Merlin Noddy Osprey Plover Quail Rail Siskin Teal".split()
P="Brookside Fenwick Marshend Oxbow Reedham Siltbank Thornmere Ashgrove Birchwell Cedarholm Dalebury Elmcombe Fernhill Gorsefield Hazeldene Ivybridge Juniper Kelpton Larchmont Millbank Northcove Oakmere Pinehurst Quayside Riffleton".split()
def test_fast():
    d=Desk()
    rows=["No.,Player,Pos,Height,Weight,Tape (in),Tape 2 (in),Length (in),Breadth (in),Worn"]
    n=0
    for b in B:
        for p in P:
            n+=1
            rows.append(f"{n%99},{b} {p},OL,6 ft 1 in,210,22 3/8,22 1/4,7 3/4,5 7/8,bare")
    text="\n".join(rows)
    up=d.upload(text)
    t=time.time(); plan=plan_of(up,today=date(2026,8,7)); print("plan new",time.time()-t, len(plan.payloads))
    t=time.time(); dig=plan.digest; print("digest",time.time()-t)
    t=time.time(); take_in(upload=up,plan_digest=dig,by=d.by,now=d.room.now); print("taken",time.time()-t)
    t=time.time(); plan=plan_of(d.upload(text),today=date(2026,8,7)); print("plan same",time.time()-t, len(plan.payloads))
    t=time.time(); plan=plan_of(d.upload(text.replace("Heron","Herron")),today=date(2026,8,7)); print("plan near",time.time()-t, len(plan.payloads))
    t=time.time(); undo_take_in(take_in=up.take_in,by=d.by,now=d.room.now); print("undo",time.time()-t)
