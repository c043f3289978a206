module bowerwright

go 1.26
