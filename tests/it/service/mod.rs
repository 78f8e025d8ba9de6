//! The whole service over real sockets: in this process for its answers, as programs for its life.

mod bench;
mod shop;

mod batch;
mod check;
mod client;
mod faults;
mod import;
mod life;
mod lookup;
mod operate;
mod random;
mod recommend;
mod records;
