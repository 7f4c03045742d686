# The figures of PublishedExamplesTest that rest on clusters, from whole matrices: Rscript cluster.R
cr2 <- function(X, y, g, l, rho=NULL) {
  XX <- solve(crossprod(X)); b <- XX %*% crossprod(X,y); e <- y - X %*% b; n <- length(y)
  H <- X %*% XX %*% t(X); I <- diag(n)
  V <- 0; G <- NULL; t3 <- 0
  for (k in unique(g)) { i <- which(g==k); A <- I[i,i,drop=F]-H[i,i]; ev <- eigen(A,symmetric=TRUE); Ai <- ev$vectors %*% diag(1/sqrt(ev$values),length(i)) %*% t(ev$vectors)
    w <- Ai %*% X[i,,drop=F] %*% XX %*% l; V <- V + sum(w*e[i])^2; t3 <- t3+sum(w*e[i])^3
    a <- rep(0,n); a[i] <- w; G <- cbind(G, (I-H) %*% a) }
  if (is.null(rho)) { num<-0;pr<-0; for(k in unique(g)){i<-which(g==k); num<-num+sum(e[i])^2-sum(e[i]^2); pr<-pr+length(i)*(length(i)-1)}; rho <- min(1,max(0,num/pr/(sum(e^2)/n))) }
  O <- (1-rho)*I + rho*outer(g,g,"==")
  M <- t(G) %*% O %*% G
  c(est=sum(l*b), V=V, df=sum(diag(M))^2/sum(M*M), rho=rho, skew=t3/V^1.5)
}
u <- matrix(c(13,13,12,12,9,9,9,9,8,8,8,8,12,13,11,12,9,10,9,10,8,9,11,13,4,5,5,7,7,10,7,10),2)
tr <- matrix(c(12,12,11,11,10,10,9,9,10,11,9,10,9,10,8,9,8,9,4,5,7,9,4,7,5,10,3,6,3,10,0,7),2)
mk <- function(m,off,grp) do.call(rbind,lapply(1:ncol(m),function(k) data.frame(y=c(rep(1,m[1,k]),rep(0,m[2,k]-m[1,k])),g=off+k,grp=grp)))
d <- rbind(mk(u,0,0),mk(tr,100,1))
options(digits=13)
X <- cbind(d$grp==0,d$grp==1)+0
r <- cr2(X,d$y,d$g,c(1,-1)); print(r); print(c(t=r[["est"]]/sqrt(r[["V"]]),p=2*pt(-abs(r[["est"]]/sqrt(r[["V"]])),r[["df"]]))); print(r[["est"]]+c(-1,1)*qt(.975,r[["df"]])*sqrt(r[["V"]]))
p1<-mean(d$y[d$grp==0]);p2<-mean(d$y[d$grp==1]); o<-cr2(X,d$y,d$g,c(1/(p1*(1-p1)),-1/(p2*(1-p2)))); lo<-log(p1/(1-p1)/(p2/(1-p2))); print(exp(lo+c(0,-1,1)*qt(.975,o[["df"]])*sqrt(o[["V"]])))
t1<-d[d$grp==1,]; m<-cr2(matrix(1,nrow(t1)),t1$y,t1$g,1); print(m); n<-p2*(1-p2)/m[["V"]]*(qnorm(.975)/qt(.975,m[["df"]]))^2; z<-qnorm(.975); print((p2+z^2/2/n+c(-1,1)*z*sqrt(p2*(1-p2)/n+z^2/4/n^2))/(1+z^2/n)); print(m[["V"]]/(p2*(1-p2)/nrow(t1)))
# groups within clusters, and a trend
set.seed(1); g <- rep(1:12,times=c(3:14)); x<-rep_len(1:5,length(g)); y <- as.numeric((g*7+x*3+seq_along(g)*5) %% 11 < 3 + (x>3))
grp <- x %% 2; print(cr2(cbind(grp==0,grp==1)+0,y,g,c(1,-1))); print(cr2(cbind(1,x),y,g,c(0,1)))
print(table(g,x))
